// What is looked at apart from the spine, in a dialog that keeps what was typed when it is refused.

import { button, make } from "./make.js";

const dialog = document.querySelector("#dialog");
const title = document.querySelector("#dialog-title");
const body = document.querySelector("#dialog-body");

dialog.addEventListener("keydown", (event) => {
  if (event.key === "L" && !event.target.matches("input, textarea")) document.querySelector("#leave-all")?.click();
});

export const isOpen = () => dialog.open;
export const close = () => dialog.close();
export { body, dialog };

// What was refused is said where the person is looking.
export function complain(text) {
  const alarm = document.querySelector("#dialog-alert");
  alarm.hidden = !text;
  alarm.textContent = text ?? "";
}

export function show(heading, ...given) {
  complain(null);
  title.textContent = heading;
  body.replaceChildren(...given.filter(Boolean));
  title.removeAttribute("tabindex");
  if (!dialog.open) dialog.showModal();
  // What is to be read starts at its top, though all there is to press stands at its end.
  if (dialog.scrollHeight > dialog.clientHeight && !body.querySelector("input, textarea, [autofocus]")) {
    title.tabIndex = -1;
    title.focus();
  }
}

export function showKeys(keys, single, setSingle) {
  const rows = keys.map(([key, what]) => make("tr", {}, make("td", {}, make("kbd", { text: key })), make("td", { text: what })));
  const box = make("input", { type: "checkbox", checked: single, on: { change: (event) => setSingle(event.target.checked) } });
  show("Keys", make("table", { class: "keys" }, make("tbody", {}, ...rows)), make("label", { class: "check" }, box, " Single keys act (switch off if you speak to your computer or keys get hit by mistake)"), make("div", { class: "ends" }, button("Close", close, "Esc")));
}
