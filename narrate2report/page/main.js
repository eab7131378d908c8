// What a key or a click does to a walk.

import { drawDesk, formOpen, openForm, openPictures, picturesOpen } from "./desk.js";
import { isOpen } from "./dialog.js";
import * as dialogs from "./dialogs.js";
import { isPlaying, lookAt, onMoment, pause, play, show } from "./screen.js";
import { draw, follow, mark, redraw } from "./spine.js";
import { decide, lookForOthers, open, seal, walk } from "./walk.js";
import { atWork, besideOf, complain, isBusy, keep as keepAny, keepStageInView, name as nameIt, nextOf, onKeys, reviewer, showKeys, tell, watchOthers } from "./work.js";

const KEYS = [
  ["n", "next entry that is to decide"], ["j  ↓", "next entry"], ["k  ↑", "entry before"], ["p  Space", "play the statement, or stop"],
  ["a", "accept and go on"], ["A", "accept all that the same sentence gave, and go on"], ["e", "change (Enter keeps, Esc goes back; Alt with ← → moves a time)"], ["x", "leave out: it was read wrong"],
  ["w", "withdraw: it was said but does not stand"], ["t", "picture (then [ ] frame by frame, { } by half a second, Enter keeps)"],
  ["m", "merge with the one before that says the same"], ["s", "split in two"], ["o", "decide again"], ["g", "accept the sound ones of this room together"],
  ["i", "make an entry of the sentence being spoken"], ["u", "undo"], ["r", "redo"], ["c", "what was not spoken of (then L leaves all open ones as not noted)"], ["z", "seal, when all is decided"], ["?", "this list"],
];
let current = null;
let spoken = null;

const entry = () => walk.entries.get(current) ?? null;

async function start() {
  try {
    await open();
  } catch (error) {
    complain(error.message);
    return;
  }
  const { name, clashes } = walk.title;
  nameIt(`Review: ${name}`, walk.reviewer);
  draw();
  tellProgress();
  if (walk.seal) tell(`Sealed: ${walk.seal}`);
  else if (clashes.length) tell(`Sources disagree: ${clashes.join("; ")}`);
  await show(walk.recordings.findIndex((one) => one.media)).catch(() => {});
  choose(nextOpen(-1));
  atWork(false);
  watchOthers(others);
}

function tellProgress() {
  const open = walk.undecided ? `${walk.undecided} of ${walk.order.length} to decide` : "all decided";
  const gaps = walk.openGaps ? `${walk.openGaps} not spoken of` : "no open gaps";
  document.querySelector("#left").textContent = walk.sealed ? "sealed: nothing can be decided any more" : `${open} · ${gaps}`;
  document.querySelector("#undo").disabled = !walk.canUndo;
  document.querySelector("#redo").disabled = !walk.canRedo;
  document.querySelector("#seal").hidden = !walk.canSeal;
}

function choose(id, scroll = true) {
  current = id ?? null;
  const card = mark(current);
  drawDesk(entry(), act);
  if (scroll) card?.scrollIntoView({ block: "center" });
  if (entry()) lookAt(entry().evidence[0].recording, entry().evidence[0].start);
}

const position = () => walk.order.indexOf(current);
const beside = (steps) => besideOf(walk.order, current, steps);
const nextOpen = (from) => nextOf(walk.order, from, (id) => walk.entries.get(id).state === "proposed");

// Keeps a decision and says whether it was kept; `then` chooses what is at hand afterwards.
const keep = (request, told, then = () => choose(current, false)) =>
  keepAny((by) => decide(request, by), told, {
    after(touched) {
      redraw(touched);
      then(touched);
    },
    refused(touched) {
      redraw(touched);
      if (!formOpen() && !isOpen()) choose(current, false);
    },
    rest() {
      tellProgress();
      mark(current);
    },
  });

async function others() {
  if (formOpen() || picturesOpen()) return;
  const touched = await lookForOthers().catch(() => null);
  if (!touched) return;
  redraw(touched);
  tellProgress();
  choose(current, false);
  tell(`Decided in another window meanwhile by ${touched.by.join(", ")}: ${touched.entries.length} entries`);
}

const goOn = () => choose(nextOpen(position()) ?? current);
const stay = (touched) => choose(touched.entries.find((id) => walk.entries.has(id)) ?? current);
const firstTouched = (touched) => choose(touched.entries.find((id) => id !== current && walk.entries.has(id)) ?? current);

const ACTS = {
  play() {
    if (isPlaying()) return pause();
    const { recording, start: from } = entry().evidence[0];
    return play(recording, from, entry().evidence.filter((piece) => piece.recording === recording).at(-1).end);
  },
  accept: () => keep({ action: "accept", entries: [current] }, `accepted, ${entry().title}`, goOn),
  acceptSentence() {
    const said = (one) => one.evidence[0].sentences[0] ?? one.id;
    const same = walk.order.map((id) => walk.entries.get(id)).filter((one) => one.state === "proposed" && said(one) === said(entry()));
    if (!same.length) return complain("Nothing of this sentence is left to decide.");
    return keep({ action: "accept", entries: same.map((one) => one.id) }, `accepted, ${same.length} of this sentence`, goOn);
  },
  drop: () => keep({ action: "drop", entries: [current] }, `left out, ${entry().title}`, goOn),
  withdraw() {
    const at = entry();
    dialogs.askWhy(at, (why) => keep({ action: "withdraw", entry: at.id, why }, `withdrawn, ${at.title}`, goOn));
  },
  reopen: () => keep({ action: "reopen", entries: [current] }, `to decide again, ${entry().title}`),
  change() {
    const at = entry();
    const nudge = (_, moved) => play(at.evidence[0].recording, moved, moved + 1);
    const done = (facts) => {
      if (!Object.keys(facts).length) return complain("Nothing was changed. Press Esc to go back, or a to accept it as it is.");
      return keep({ action: "change", entry: at.id, facts }, `changed, ${at.title}`, goOn);
    };
    openForm(at.facts, "Keep the change", done, () => choose(current, false), nudge);
  },
  merge() {
    const earlier = walk.order.slice(0, position()).reverse();
    const same = (id) => walk.entries.get(id).statement === entry().statement;
    const before = earlier.find((id) => same(id) && walk.entries.get(id).state !== "dropped") ?? earlier[0];
    if (!before) return complain("There is no entry before this one.");
    return keep({ action: "merge", entries: [before, current] }, "merged with the one before", () => choose(before));
  },
  split: () => keep({ action: "split", entry: current }, "split in two; change the second", firstTouched),
  async picture() {
    const { id } = entry();
    const take = (at) => keep({ action: "still", entry: id, at }, "picture taken");
    atWork(true);
    try {
      await openPictures(entry(), () => current === id, take, () => choose(current, false));
    } catch (error) {
      complain(error.message);
    } finally {
      atWork(false);
    }
  },
  remove: (sha256) => keep({ action: "no_still", entry: current, sha256 }, "picture removed"),
  sound() {
    const sound = walk.order.map((id) => walk.entries.get(id)).filter((one) => one.room === entry().room && one.state === "proposed" && one.sound);
    if (!sound.length) return complain(`Nothing is left to decide that is said to be in order in: ${entry().room_name}.`);
    return dialogs.showSound(entry().room_name, sound, (entries) => keep({ action: "accept", entries }, `accepted, ${entries.length} sound ones`, goOn));
  },
};

function act(name, ...more) {
  if (isBusy()) return undefined;
  complain(null);
  if (!entry()) return complain("Choose an entry first.");
  return ACTS[name](...more);
}

const TOOLS = {
  next: () => choose(nextOpen(position()) ?? current),
  undo: () => keep({ action: "undo" }, "taken back", stay),
  redo: () => keep({ action: "redo" }, "it stands again", stay),
  gaps: () => dialogs.showGaps(settle),
  seal: () => dialogs.showSeal(reviewer(), walk.statement, sealIt, (where) => TOOLS[where]()),
  help: () => showKeys(KEYS),
};

async function settle(gaps, looked, note) {
  const named = gaps.map(({ room, component }) => ({ room, component }));
  await keep({ action: "acknowledge", gaps: named, looked, note }, `${gaps.length} not spoken of: settled`, () => dialogs.showGaps(settle));
}

async function sealIt(name, statement) {
  if (isBusy()) return;
  atWork(true);
  try {
    dialogs.showSealed(await seal(name, statement));
    walk.sealed = true;
    complain(null);
  } catch (error) {
    complain(error.message);
  } finally {
    atWork(false);
    tellProgress();
  }
}

function makeEntry(id) {
  const one = walk.sentences.find((sentence) => sentence.id === id);
  const given = { kind: "condition", room: one.room, component: null, condition: null, assertion: "present" };
  const rests = one.stretch ? { stretch: one.stretch } : { sentences: [id] };
  mark(null);
  play(one.recording, one.start, one.end);
  openForm(given, "Make this entry", (facts) => keep({ action: "add", ...rests, facts: { ...given, ...facts } }, "made", firstTouched), () => choose(current));
}

document.addEventListener("click", (event) => {
  const hit = event.target.closest("[data-do], [data-entry], [data-at], [data-add]");
  if (!hit) return;
  const { do: tool, entry: id, at, add, recording } = hit.dataset;
  if (isBusy()) return;
  if (formOpen() && (id || add)) return complain("Keep what you typed, or leave it with Cancel, before you go to another entry.");
  if (tool) TOOLS[tool]();
  else if (add) makeEntry(add);
  else if (at) play(Number(recording), Number(at));
  else if (id) {
    choose(id, false);
    if (event.detail === 2) ACTS.play();
  }
});

const ON_KEY = {
  n: TOOLS.next, j: () => choose(beside(1)), ArrowDown: () => choose(beside(1)), k: () => choose(beside(-1)), ArrowUp: () => choose(beside(-1)),
  p: () => act("play"), " ": () => act("play"), a: () => act("accept"), e: () => act("change"), x: () => act("drop"), w: () => act("withdraw"),
  t: () => act("picture"), m: () => act("merge"), s: () => act("split"), o: () => act("reopen"), g: () => act("sound"),
  i: () => spoken && makeEntry(spoken), u: TOOLS.undo, r: TOOLS.redo, c: TOOLS.gaps, z: () => walk.canSeal && TOOLS.seal(), A: () => act("acceptSentence"), "?": TOOLS.help,
};
const PICTURE_KEYS = { "[": (strip) => strip.step(-1), "]": (strip) => strip.step(1), "{": (strip) => strip.jump(-0.5), "}": (strip) => strip.jump(0.5), Enter: (strip) => strip.keep(), Escape: () => choose(current, false) };

const MOVING = new Set(["j", "k", "ArrowDown", "ArrowUp", "[", "]", "{", "}"]);

onKeys((event, acts) => {
  if (formOpen()) return event.key === "Escape" ? () => choose(current, false) : null;
  const strip = picturesOpen();
  if (strip && PICTURE_KEYS[event.key]) return () => PICTURE_KEYS[event.key](strip);
  return acts ? ON_KEY[event.key] : null;
}, MOVING);

onMoment((recording, at) => {
  spoken = walk.sentences.findLast((one) => one.recording === recording && one.start <= at + 0.01)?.id ?? null;
  follow(recording, at, isPlaying() && !formOpen());
});

keepStageInView();
start();
