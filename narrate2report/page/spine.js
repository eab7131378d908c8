// What was said, in order; beside each sentence the entries that it gave.

import { make, playButton } from "./make.js";
import { walk } from "./walk.js";
import { chooseCard } from "./work.js";

const spine = document.querySelector("#spine");
const SHAPES = { proposed: "□", accepted: "✓", changed: "✎", dropped: "–" };
const KINDS = {
  condition: "seen", check: "tried", handover: "handed over", advice: "told", follow_up: "to do", description: "what it is",
};
const lines = new Map();
let nowLine = null;

export function draw() {
  lines.clear();
  const whole = document.createDocumentFragment();
  let list = null;
  let room = null;
  for (const one of everyLine()) {
    if (one.room !== room) {
      room = one.room;
      list = make("ol");
      whole.append(make("section", { "aria-label": one.room_name }, make("h2", { text: one.room_name }), list));
    }
    list.append(line(one));
  }
  spine.replaceChildren(whole);
  for (const id of walk.order) place(id);
}

// Draws anew what a decision touched.
export function redraw(touched) {
  for (const id of touched.entries) {
    document.getElementById(`entry-${id}`)?.remove();
    if (walk.entries.has(id)) place(id);
  }
  for (const id of touched.unused) lines.get(id)?.replaceWith(line(sentence(id)));
  for (const id of touched.unused) for (const entry of entriesOf(id)) place(entry);
}

export const mark = (id) => chooseCard(spine, `entry-${id}`);

// The sentence that is being spoken.
export function follow(recording, at, scroll) {
  const spoken = walk.sentences.findLast((one) => one.recording === recording && one.start <= at + 0.01);
  const element = spoken && lines.get(spoken.id);
  if (element === nowLine) return;
  nowLine?.classList.remove("now");
  nowLine?.removeAttribute("aria-current");
  element?.classList.add("now");
  element?.setAttribute("aria-current", "time");
  nowLine = element ?? null;
  if (scroll) element?.scrollIntoView({ block: "nearest" });
}

// Sentences, and a line without words for each entry that rests on none.
function everyLine() {
  const unspoken = walk.order.map((id) => walk.entries.get(id)).filter((entry) => homeOf(entry) === `at-${entry.id}`);
  const extra = unspoken.map((entry) => unspokenLine(entry));
  return [...walk.sentences, ...extra].sort((one, other) => one.recording - other.recording || one.start - other.start);
}

function unspokenLine(entry) {
  const { recording, start, end, clock } = entry.evidence[0];
  return { id: `at-${entry.id}`, recording, start, end, clock, text: "(no words)", room: entry.room, room_name: entry.room_name };
}

const sentence = (id) => walk.sentences.find((one) => one.id === id);

// The line that an entry stands beside: its first sentence, the stretch that nobody understood, or a line of its own.
function homeOf(entry) {
  const { sentences, recording, start, end } = entry.evidence[0];
  const same = (one) => one.stretch && one.recording === recording && one.start === start && one.end === end;
  return sentences[0] ?? walk.sentences.find(same)?.id ?? `at-${entry.id}`;
}

const entriesOf = (id) => walk.order.filter((entry) => homeOf(walk.entries.get(entry)) === id);

function line(one) {
  const reason = one.stretch && entriesOf(one.id).length ? null : walk.unused.get(one.id);
  const given = make("div", { class: "given" });
  if (reason) {
    given.append(
      make("span", { class: "why" }, [`No entry: ${reason.reason} (${reason.because}).`, ...reason.asked.map((question) => `Heard ${question}.`)].join(" "), make("button", { type: "button", class: "make", data: { add: one.id }, "aria-label": `Make an entry of “${one.text}”`, text: "Make an entry" })),
    );
  }
  const element = make("li", { class: reason ? "line silent" : "line" }, playButton(one), make("div", { class: "words", text: one.text }), given);
  lines.set(one.id, element);
  return element;
}

function place(id) {
  const entry = walk.entries.get(id);
  const home = homeOf(entry);
  if (!lines.has(home)) {
    draw();
    return;
  }
  if (home.startsWith("gap-") && lines.get(home).classList.contains("silent")) lines.get(home).replaceWith(line(sentence(home)));
  const given = lines.get(home).querySelector(".given");
  const card = cardOf(entry);
  const after = [...given.children].find((other) => walk.order.indexOf(other.dataset.entry) > walk.order.indexOf(id));
  given.insertBefore(card, after ?? null);
}

function cardOf(entry) {
  const text = make("span", { class: "text" }, make("strong", { text: entry.title }), ` ${entry.says} `, make("span", { class: "kind", text: `(${KINDS[entry.kind]}${entry.stills.length ? ", with picture" : ""}${entry.heard.some((word) => word.asked) ? ", word in doubt" : entry.heard.length ? ", misheard word" : ""})` }));
  return make(
    "button",
    { type: "button", class: "card", id: `entry-${entry.id}`, data: { entry: entry.id, state: entry.state } },
    make("span", { class: "shape", text: SHAPES[entry.state], "aria-hidden": "true" }),
    text,
    make("span", { class: "state", text: entry.state_word }),
  );
}
