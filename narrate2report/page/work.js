// What every review page does alike: one decision at a time, the next waits until the last is on disk; keys that act.

import * as dialog from "./dialog.js";

const by = document.querySelector("#by");
const notice = document.querySelector("#notice");
const alarm = document.querySelector("#alert");
let busy = true;
let single = localStorage.getItem("single-keys") !== "off";

export const isBusy = () => busy;
export const reviewer = () => by.value;
export const tell = (text) => { notice.textContent = text; };

// Whoever drives this page by program can see when it is at rest.
export function atWork(now) {
  busy = now;
  document.body.dataset.busy = now ? "yes" : "no";
}

export function name(heading, proposed) {
  document.querySelector("#title").textContent = heading;
  document.title = heading;
  by.value = localStorage.getItem("decided-by") || proposed;
}

export function complain(text) {
  alarm.hidden = !text;
  alarm.textContent = text ?? "";
  dialog.complain(text);
}

// Keeps a decision and says whether it was kept. `send` takes who decides; `after` draws what it touched; `refused`
// draws what another window decided, where that is why. What was typed stays there when it was not kept.
export async function keep(send, told, { after, refused, rest }) {
  if (!by.value.trim()) {
    if (dialog.isOpen()) dialog.close();
    complain("Say first who decides: your name goes beside each decision.");
    by.focus();
    return false;
  }
  if (busy) return false;
  atWork(true);
  localStorage.setItem("decided-by", by.value.trim());
  try {
    const touched = await send(by.value.trim());
    complain(null);
    tell(`Kept: ${told}`);
    after(touched);
    return true;
  } catch (error) {
    if (error.touched) refused(error.touched);
    complain(error.message);
    return false;
  } finally {
    atWork(false);
    rest();
  }
}

// Asks now and then, and when the window is looked at again, what other windows have decided.
export function watchOthers(look) {
  const others = () => { if (!busy) look(); };
  setInterval(others, 8000);
  window.addEventListener("focus", others);
}

// Keys that act. `actOf(event, single)` gives what a key does, or nothing; `moving` are those that may be held down.
export function onKeys(actOf, moving) {
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || dialog.isOpen()) return;
    if (event.target.matches("input, select, textarea")) return;
    if (event.target.matches("video") && (event.key.length > 1 || event.key === " ")) return;
    if (event.target.matches("button, a, summary") && ["Enter", " "].includes(event.key)) return;
    const act = actOf(event, single || event.key.length > 1);
    if (!act) return;
    event.preventDefault();
    // A key that is held down moves on, and decides nothing.
    if (busy || (event.repeat && !moving.has(event.key))) return;
    act();
  });
}

export const showKeys = (keys) => dialog.showKeys(keys, single, (on) => { single = on; localStorage.setItem("single-keys", on ? "on" : "off"); });

// In an order of things: what is so many steps beside one, and the next after a place that is open, round the end.
export const besideOf = (order, current, steps) => order[Math.min(Math.max(order.indexOf(current) + steps, 0), order.length - 1)];
export const nextOf = (order, from, isOpen) => [...order.slice(from + 1), ...order.slice(0, from + 1)].find(isOpen);

// Marks the card of what is at hand among those of a place, and gives it; with the id of none, only takes the mark off.
export function chooseCard(place, id) {
  for (const card of place.querySelectorAll(".card.chosen")) {
    card.classList.remove("chosen");
    card.removeAttribute("aria-current");
  }
  const card = document.getElementById(id);
  card?.classList.add("chosen");
  card?.setAttribute("aria-current", "true");
  return card;
}

// The stage stays in view, and nothing that is scrolled to may lie behind it.
export function keepStageInView() {
  const stage = document.querySelector(".stage");
  new ResizeObserver(() => document.documentElement.style.setProperty("--stage", `${stage.offsetHeight}px`)).observe(stage);
}

// Where the keyboard is, if it is in `place`, on a card, or nowhere: the name of the act, or "none"; null elsewhere.
export function heldFocus(place) {
  const at = document.activeElement;
  if (place.contains(at)) return at.dataset.act ?? "none";
  return at === document.body || at.classList.contains("card") ? "none" : null;
}

// The same button again, or the heading, which also tells a screen reader what is at hand now.
export function giveFocusBack(place, held) {
  if (held) (place.querySelector(`button[data-act="${held}"]:not(:disabled)`) ?? place.querySelector("h2")).focus({ preventScroll: true });
}
