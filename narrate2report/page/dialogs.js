// What is looked at apart from the spine: gaps, the sound entries of a room, sealing, the keys.

import { body, close, dialog, show } from "./dialog.js";
import { button, make } from "./make.js";
import { gapKey, walk } from "./walk.js";

// What one would expect to be spoken of. `settle(gaps, looked, note)` keeps what the person says of them.
export function showGaps(settle) {
  const rooms = new Map();
  for (const gap of walk.coverage.values()) rooms.set(gap.room, [...(rooms.get(gap.room) ?? []), gap]);
  const parts = [...rooms.values()].map((gaps) => roomOfGaps(gaps, settle));
  const typed = new Map([...body.querySelectorAll(".row input")].map((note) => [note.closest(".row").dataset.gap, note.value]));
  const held = document.activeElement?.closest?.(".row")?.dataset.gap;
  const scrolled = dialog.scrollTop;
  const lead = "Nothing was said of these. Silence is never taken for good: say of each whether it was not looked at, or what you saw since, or leave it as not noted.";
  const first = walk.calledOut.map((text) => make("p", {}, make("strong", { text })));
  show("Not spoken of", ...first, make("p", { text: lead }), ...parts, everything(settle), make("div", { class: "ends" }, button("Close", close, "Esc")));
  for (const row of body.querySelectorAll(".row")) {
    const note = typed.get(row.dataset.gap);
    if (note) row.querySelector("input").value = note;
    if (row.dataset.gap === held) (row.nextElementSibling?.querySelector?.("button") ?? row.querySelector("button")).focus({ preventScroll: true });
  }
  dialog.scrollTop = scrolled;
}

function everything(settle) {
  const open = [...walk.coverage.values()].filter((gap) => !gap.looked);
  if (!open.length) return make("p", { text: "Every one of them is settled." });
  return make("p", {}, button(`Leave all ${open.length} open ones as not noted`, () => settle(open, "left_not_noted", null), "L", { id: "leave-all" }));
}

function roomOfGaps(gaps, settle) {
  const open = gaps.filter((gap) => !gap.looked);
  const rest = open.length > 1 ? button(`Leave the ${open.length} open ones as not noted`, () => settle(open, "left_not_noted", null)) : null;
  return make("section", {}, make("h3", { text: gaps[0].room_name }), ...gaps.map((gap) => gapRow(gap, settle)), rest);
}

function gapRow(gap, settle) {
  const note = make("input", { "aria-label": `What was seen of ${gap.title}`, placeholder: "what you saw", value: gap.note ?? "", maxlength: "2000" });
  const pressed = (looked) => ({ "aria-pressed": String(gap.looked === looked), "aria-describedby": `gap-${gapKey(gap)}` });
  return make(
    "div",
    { class: "row", role: "group", "aria-label": gap.title, data: { gap: gapKey(gap) } },
    make("span", { class: "name", id: `gap-${gapKey(gap)}`, text: `${gap.title}: ${gap.looked_word}` }),
    button("Not looked at", () => settle([gap], "not_looked_at", null), null, pressed("not_looked_at")),
    note,
    button("Looked at since", () => settle([gap], "looked_at_since", note.value), null, pressed("looked_at_since")),
    button("Leave as not noted", () => settle([gap], "left_not_noted", null), null, pressed("left_not_noted")),
  );
}

// The plain sound entries of a room, listed before they are accepted together.
export function showSound(room, entries, accept) {
  const list = make("ul", {}, ...entries.map((entry) => make("li", { text: `${entry.title}: ${entry.says} — “${entry.evidence[0].quote}”` })));
  const yes = button(`Accept these ${entries.length}`, async () => { if (await accept(entries.map((entry) => entry.id))) close(); }, "Enter", { class: "main", autofocus: true });
  show(`${room}: said to be in order`, list, make("div", { class: "ends" }, yes, button("Not together", close, "Esc")));
}

// A reason is part of the record.
export function askWhy(entry, withdraw) {
  const why = make("input", { "aria-label": "Why", required: true, maxlength: "2000", autofocus: true });
  const form = make("form", { on: { submit: async (event) => { event.preventDefault(); if (await withdraw(why.value)) close(); } } }, make("label", {}, "It was said, but does not stand, because ", why), make("div", { class: "ends" }, make("button", { type: "submit", class: "main", text: "Withdraw" }), button("Cancel", close, "Esc")));
  show(`Withdraw: ${entry.title}, ${entry.says}`, form);
}

export function showSeal(name, statement, sealIt, goTo) {
  if (walk.undecided || walk.openGaps) {
    show(
      "Not ready to be sealed",
      make("ul", {}, walk.undecided ? make("li", { text: `${walk.undecided} entries are to decide` }) : null, walk.openGaps ? make("li", { text: `${walk.openGaps} components were not spoken of and are not settled` }) : null),
      make("div", { class: "ends" }, walk.undecided ? button("Next open entry", () => { close(); goTo("next"); }, null, { class: "main" }) : button("Not spoken of", () => goTo("gaps"), null, { class: "main" }), button("Close", close, "Esc")),
    );
    return;
  }
  const by = make("input", { value: name, required: true, maxlength: "200" });
  const said = make("textarea", { required: true, rows: "4", maxlength: "2000", text: statement });
  const form = make(
    "form",
    { on: { submit: (event) => { event.preventDefault(); sealIt(by.value, said.value); } } },
    make("p", { text: "A sealed record is never changed again; what comes to light later goes into an addendum. The seal shows that nothing was altered since. It does not show that what was said is true, and it is no legal advice." }),
    make("label", {}, "Your name", by),
    make("label", {}, "Your statement", said),
    make("div", { class: "ends" }, make("button", { type: "submit", class: "main", text: "Seal" }), button("Cancel", close, "Esc")),
  );
  show("Seal this record", form);
}

export function showSealed(sha256) {
  show("Sealed", make("p", { text: "The record is sealed. Keep this line, or send it to both sides: whoever has it can tell whether anything was changed." }), make("p", {}, make("code", { text: sha256 })), make("p", { text: "You can close this page and stop the program." }));
}
