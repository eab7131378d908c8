// Every change, room by room: what was said before, what was said afterwards, and what became of it.

import { comparison, entriesOf, outcomeOf, SIDES, stateOf } from "./comparison.js";
import { make, playButton } from "./make.js";
import { chooseCard } from "./work.js";

const spine = document.querySelector("#spine");

export function draw() {
  const whole = document.createDocumentFragment();
  let list = null;
  let room = null;
  for (const change of comparison.order.map((id) => comparison.changes.get(id))) {
    if (change.room !== room) {
      room = change.room;
      list = make("ol");
      whole.append(make("section", { "aria-label": change.room_name }, make("h2", { text: change.room_name }), heads(), list));
    }
    list.append(line(change));
  }
  if (!comparison.order.length) whole.append(make("p", { text: "Neither record holds a flaw, so there is nothing to go through." }));
  spine.replaceChildren(whole);
}

// Draws anew what a decision touched: all, where a change came, went, or stands elsewhere.
export function redraw({ changes, moved }) {
  if (moved) return draw();
  for (const id of changes) document.getElementById(`change-${id}`).parentElement.replaceWith(line(comparison.changes.get(id)));
}

export const mark = (id) => chooseCard(spine, `change-${id}`);

// What each column holds; each cell also says it for whoever does not see columns.
function heads() {
  return make("p", { class: "line change heads", "aria-hidden": "true" }, ...SIDES.map((side) => make("span", { text: comparison.records[side].name })), make("span", { text: "what became of it" }));
}

function line(change) {
  return make("li", { class: "line change" }, ...SIDES.map((side) => half(change, side)), card(change));
}

function half(change, side) {
  const record = comparison.records[side].name;
  const entries = entriesOf(change, side);
  if (!entries.length) return make("div", { class: "half none" }, make("span", { class: "of", text: record }), " no entry");
  return make("div", { class: "half" }, make("span", { class: "of", text: record }), ...entries.map((entry) => words(entry, record)));
}

function words(entry, record) {
  const [piece] = entry.evidence;
  const { clock, quote } = piece;
  return make("p", { class: entry.adverse ? "words" : "words beside" }, playButton(piece, `Play ${record} from ${clock}`), quote ? ` “${quote}”` : " (no words)");
}

function card(change) {
  const shape = change.open ? "□" : change.judgement?.verdict === "open" ? "◇" : "✓";
  return make(
    "button",
    { type: "button", class: "card", id: `change-${change.id}`, data: { change: change.id, state: change.open ? "proposed" : "accepted" } },
    make("span", { class: "shape", text: shape, "aria-hidden": "true" }),
    make("span", { class: "text" }, make("strong", { text: change.title }), ` ${outcomeOf(change)}`),
    make("span", { class: "state", text: stateOf(change) }),
  );
}
