// The entry at hand: what it says, on what it rests, and what can be done with it.

import { factsForm } from "./facts.js";
import { button, make } from "./make.js";
import { play } from "./screen.js";
import { pictureStrip } from "./stills.js";
import { walk } from "./walk.js";
import { giveFocusBack, heldFocus } from "./work.js";

const desk = document.querySelector("#desk");
let strip = null;
let form = null;

export const picturesOpen = () => strip;
export const formOpen = () => form !== null;

export function drawDesk(entry, act) {
  const held = heldFocus(desk);
  strip = null;
  form = null;
  if (!entry) {
    desk.replaceChildren(make("p", { text: walk.order.length ? "Choose an entry, or press n for the next one that is to decide." : "This walk gave no entries. Make them from the sentences below." }));
    return;
  }
  const parts = [
    make("h2", { tabIndex: -1, text: `${entry.room_name}: ${entry.title}, ${entry.says}` }),
    make("p", { text: stateOf(entry) }),
    ...entry.evidence.map((piece) => quote(piece)),
    ...entry.heard.map((one) => heard(one, entry)),
    actions(entry, act),
    stills(entry, act),
    make("details", {}, make("summary", { text: `Why it was read so (${Math.round(entry.sure * 100)} % sure)` }), make("ul", {}, ...entry.because.map((reason) => make("li", { text: reason })))),
  ];
  desk.replaceChildren(...parts.filter(Boolean));
  desk.scrollTop = 0;
  giveFocusBack(desk, held);
}

function stateOf(entry) {
  const who = entry.decided;
  const note = entry.facts.note ? ` Remark: ${entry.facts.note}` : "";
  return who ? `${entry.state_word} by ${who.by}${who.why ? ` (${who.why})` : ""}.${note}` : `${entry.state_word}.${note}`;
}

function quote(piece) {
  return make("p", { class: "quote" }, `${piece.clock} `, piece.quote ? `“${piece.quote}”` : "(no words)");
}

function heard(one, entry) {
  const { recording, start, end } = entry.evidence[0];
  const both = one.asked
    ? ["Heard ", make("strong", { text: one.heard }), "; was ", make("strong", { text: one.read }), " said?"]
    : ["Heard ", make("del", { text: one.heard }), " read as ", make("strong", { text: one.read })];
  return make("p", { class: "heard" }, ...both, ` (${one.why}) `, button("Play", () => play(recording, start, end)));
}

function actions(entry, act) {
  return make(
    "div",
    { class: "actions", role: "group", "aria-label": "This entry" },
    button("Play", () => act("play"), "p", { data: { act: "play" } }),
    button("Accept", () => act("accept"), "a", { data: { act: "accept" }, class: "main", disabled: ["accepted", "changed"].includes(entry.state) }),
    button("Change", () => act("change"), "e", { data: { act: "change" } }),
    button("Leave out", () => act("drop"), "x", { data: { act: "drop" }, disabled: entry.state === "dropped" }),
    button("Withdraw", () => act("withdraw"), "w", { data: { act: "withdraw" } }),
    button("Picture", () => act("picture"), "t", { data: { act: "picture" } }),
    button("Merge with the one before", () => act("merge"), "m", { data: { act: "merge" } }),
    button("Split", () => act("split"), "s", { data: { act: "split" } }),
    entry.state === "proposed" ? null : button("Decide again", () => act("reopen"), "o", { data: { act: "reopen" } }),
    button("Sound ones of this room", () => act("sound"), "g", { data: { act: "sound" } }),
  );
}

function stills(entry, act) {
  if (!entry.stills.length) return null;
  const pictures = entry.stills.map((still) =>
    make("li", {}, make("img", { src: still.address, alt: `Picture at ${still.clock}` }), button(`Remove the one at ${still.clock}`, () => act("remove", still.sha256))));
  return make("ul", { class: "stills", "aria-label": "Pictures" }, ...pictures);
}

// Change the entry at hand, or with no entry a new one from what is known of it.
export function openForm(given, word, done, back, nudge) {
  strip = null;
  form = factsForm(given, { word, done, cancel: back, nudge });
  desk.replaceChildren(make("h2", { text: word }), form);
  const first = given.component ? form.elements[given.kind === "condition" ? "condition" : "component"] : form.elements.component;
  first.focus({ preventScroll: true });
  first.select?.();
}

// `still` says whether the entry is still at hand when the picture has come.
export async function openPictures(entry, still, keep, back) {
  const made = await pictureStrip(entry, { keep, close: back });
  if (!still() || form) return;
  desk.prepend(made);
  strip = made;
  desk.scrollTop = 0;
}
