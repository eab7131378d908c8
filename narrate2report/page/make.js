// Elements from plain values. Text is only ever set as text, so words from a recording can never become markup.

export function make(name, fields = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(fields)) {
    if (value === null || value === undefined || value === false) continue;
    if (key === "text") element.textContent = value;
    else if (key === "on") for (const [event, act] of Object.entries(value)) element.addEventListener(event, act);
    else if (key === "data") Object.assign(element.dataset, value);
    else if (key in element && typeof value !== "string") element[key] = value;
    else element.setAttribute(key, value);
  }
  element.append(...children.filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

export const button = (text, act, key = null, fields = {}) =>
  make("button", { type: "button", on: { click: act }, ...fields }, text, key ? " " : null, key ? make("kbd", { text: key }) : null);

// What plays a piece of a recording. The page hears the click, and reads from `data` what is to be played.
export const playButton = ({ recording, start, end, clock }, label = `Play from ${clock}`) =>
  make("button", { type: "button", class: "at", text: clock, "aria-label": label, data: { at: String(start), end: String(end), recording: String(recording) } });
