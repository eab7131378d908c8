// What a key or a click does to a comparison.

import { comparison, decide, entriesOf, flawsOf, lookForOthers, needsJudging, open, outcomeOf, pairable, SIDES } from "./comparison.js";
import { isOpen } from "./dialog.js";
import { drawDesk, VERDICTS } from "./judging_desk.js";
import * as dialogs from "./judging_dialogs.js";
import { draw, mark, redraw } from "./judging_spine.js";
import { make } from "./make.js";
import { makePlayer } from "./player.js";
import { atWork, besideOf, complain, isBusy, keep as keepAny, keepStageInView, name as nameIt, nextOf, onKeys, showKeys, tell, watchOthers } from "./work.js";

const screenOf = (side) => makePlayer(document.querySelector(`#${side} video`), document.querySelector(`#${side} .screen-note`), () => comparison.recordings);
const screens = { before: screenOf("before"), after: screenOf("after") };
const KEYS = [
  ["n", "next change that is to confirm or to judge"], ["j  ↓", "next change"], ["k  ↑", "change before"],
  ["p  Space", "play the earlier statement, then the later one; or stop"], ["b", "play the earlier one"], ["f", "play the later one"],
  ["a", "agree: paired rightly, and that became of it"], ["e", "correct what became of it"], ["A", "agree together to all of this room that need no judgement"],
  ["1", "ordinary wear"], ["2", "beyond ordinary wear"], ["3", "the owner’s matter"], ["0", "leave the judgement open"], ["w", "judge with a reason"],
  ["t", "pair otherwise: with another entry"], ["m", "join with another change"], ["s", "split"], ["o", "decide again"],
  ["g", "published guidance, and how laws word it"], ["u", "undo"], ["r", "redo"], ["?", "this list"],
];
let current = null;

const change = () => comparison.changes.get(current) ?? null;
const sideOf = (recording) => comparison.recordings[recording].side;
const position = () => comparison.order.indexOf(current);
const beside = (steps) => besideOf(comparison.order, current, steps);
const nextOpen = (from) => nextOf(comparison.order, from, (id) => comparison.changes.get(id).open);

async function start() {
  try {
    await open();
  } catch (error) {
    complain(error.message);
    return;
  }
  nameIt(`Changes: ${comparison.title}`, comparison.reviewer);
  for (const side of SIDES) nameWalk(side);
  draw();
  tellProgress();
  await Promise.all(SIDES.map((side) => screens[side].show(firstRecording(side)).catch(() => {})));
  choose(nextOpen(-1) ?? comparison.order[0]);
  atWork(false);
  watchOthers(others);
}

function firstRecording(side) {
  const ours = comparison.recordings.filter((one) => one.side === side);
  return (ours.find((one) => one.media) ?? ours[0])?.number;
}

function nameWalk(side) {
  const { name, file, warning } = comparison.records[side];
  const walk = document.querySelector(`#${side}`);
  walk.setAttribute("aria-label", name);
  walk.querySelector("video").setAttribute("aria-label", `Recording of ${name}`);
  walk.querySelector(".walk-name").textContent = name;
  if (!warning) return;
  document.querySelector("#mind").hidden = false;
  document.querySelector("#warnings").append(make("li", { text: `${name} (${file}) ${warning}.` }));
}

function tellProgress() {
  const { toConfirm, toJudge, leftOpen, order } = comparison;
  const parts = [toConfirm ? `${toConfirm} of ${order.length} to confirm` : "all confirmed", toJudge ? `${toJudge} to judge` : "none to judge"];
  if (leftOpen) parts.push(`${leftOpen} left open`);
  document.querySelector("#left").textContent = parts.join(" · ");
  document.querySelector("#undo").disabled = !comparison.canUndo;
  document.querySelector("#redo").disabled = !comparison.canRedo;
}

function choose(id, scroll = true) {
  current = id ?? null;
  const card = mark(current);
  drawDesk(change(), act);
  if (scroll) card?.scrollIntoView({ block: "center" });
  for (const side of SIDES) {
    const piece = change() ? shownOf(side)?.evidence[0] : null;
    if (piece) screens[side].lookAt(piece.recording, piece.start);
  }
}

// The same change again where it still stands.
const chooseWhatStands = () => choose(comparison.changes.has(current) ? current : comparison.order[0], false);

const shownOf = (side) => flawsOf(change(), side)[0] ?? entriesOf(change(), side)[0];

// Keeps a decision and says whether it was kept; `then` chooses what is at hand afterwards.
const keep = (request, told, then = () => choose(current, false)) =>
  keepAny((by) => decide(request, by), told, {
    after(touched) {
      redraw(touched);
      then(touched);
    },
    refused(touched) {
      redraw(touched);
      if (!isOpen()) chooseWhatStands();
    },
    rest() {
      tellProgress();
      mark(current);
    },
  });

async function others() {
  if (isOpen()) return;
  const touched = await lookForOthers().catch(() => null);
  if (!touched) return;
  redraw(touched);
  tellProgress();
  chooseWhatStands();
  tell(`Decided in another window meanwhile by ${touched.by.join(", ")}: ${touched.changes.length} changes`);
}

// Stays where the same change is still to be judged.
const goOn = () => choose(nextOpen(position() - 1) ?? current);
const goPast = () => choose(nextOpen(position()) ?? current);
const stay = (touched) => choose(comparison.changes.has(current) ? current : touched.changes.find((id) => comparison.changes.has(id)) ?? comparison.order[0]);

const stopAll = () => SIDES.forEach((side) => screens[side].pause());
const isPlaying = () => SIDES.some((side) => screens[side].isPlaying());

function playOne(side, then = null) {
  stopAll();
  const entry = shownOf(side);
  if (!entry) return then ? then() : complain(`No entry of ${comparison.records[side].name} stands here.`);
  const { recording, start: from } = entry.evidence[0];
  return screens[side].play(recording, from, entry.evidence.filter((piece) => piece.recording === recording).at(-1).end, then);
}

const judge = (at, verdict, why = null) =>
  keep({ action: "judge", changes: [at.id], verdict, why }, `${comparison.words.verdicts[verdict]}, ${at.title}`, verdict === "open" ? goPast : goOn);

const ACTS = {
  both: () => (isPlaying() ? stopAll() : playOne("before", () => shownOf("after") && playOne("after"))),
  earlier: () => playOne("before"),
  later: () => playOne("after"),
  agree: () => keep({ action: "confirm", changes: [current] }, `agreed, ${change().title}`, goOn),
  judge: (verdict) => judge(change(), verdict),
  why() {
    const at = change();
    dialogs.askWhy(at, (verdict, why) => judge(at, verdict, why));
  },
  correct() {
    const at = change();
    dialogs.askOutcome(at, (outcome) => keep({ action: "outcome", change: at.id, outcome }, `${comparison.words.became[outcome]}, ${at.title}`, goOn));
  },
  async pair() {
    const at = change();
    const found = await pairable(at.id).catch((error) => complain(error.message));
    if (found && current === at.id) dialogs.askPair(at, found, ({ side, entry }, outcome) => keep({ action: "pair", change: at.id, side, entry: entry.id, outcome }, `paired otherwise, ${at.title}`, stay));
  },
  join() {
    const at = change();
    const same = (other) => (other.room === at.room ? 0 : 1);
    const rest = comparison.order.filter((id) => id !== at.id).map((id) => comparison.changes.get(id)).sort((one, other) => same(one) - same(other));
    if (!rest.length) return complain("There is no other change to join it with.");
    return dialogs.askJoin(at, rest, (other, outcome) => keep({ action: "join", changes: [at.id, other], outcome }, `joined, ${at.title}`, stay));
  },
  split() {
    const at = change();
    const cut = (parts) => keep({ action: "split", change: at.id, ...parts }, `split, ${at.title}`, stay);
    if (SIDES.every((side) => flawsOf(at, side).length === 1)) return cut({ after: at.after });
    if (SIDES.flatMap((side) => flawsOf(at, side)).length < 2) return complain("There is one flaw in it; there is nothing to split.");
    return dialogs.askSplit(at, cut);
  },
  reopen: () => keep({ action: "reopen", changes: [current] }, `to decide again, ${change().title}`),
  room() {
    const { room, room_name: name } = change();
    const rest = comparison.order.map((id) => comparison.changes.get(id)).filter((one) => one.room === room && !one.confirmed && !needsJudging(one));
    if (!rest.length) return complain(`Nothing that needs no judgement is left to agree to in: ${name}.`);
    return dialogs.showRoom(name, rest, (changes) => keep({ action: "confirm", changes }, `agreed, ${changes.length} together`, goOn));
  },
};

function act(name, ...more) {
  if (isBusy()) return undefined;
  complain(null);
  if (!change()) return complain("Choose a change first.");
  return ACTS[name](...more);
}

const TOOLS = {
  next: () => choose(nextOpen(position()) ?? current),
  undo: () => keep({ action: "undo" }, "taken back", stay),
  redo: () => keep({ action: "redo" }, "it stands again", stay),
  laws: () => dialogs.showLaws(change()),
  help: () => showKeys(KEYS),
};

document.addEventListener("click", (event) => {
  const hit = event.target.closest("[data-do], [data-change], [data-at]");
  if (!hit || isBusy()) return;
  const { do: tool, change: id, at, end, recording } = hit.dataset;
  if (tool) TOOLS[tool]();
  else if (at) {
    stopAll();
    screens[sideOf(Number(recording))].play(Number(recording), Number(at), Number(end));
  } else if (id) {
    choose(id, false);
    if (event.detail === 2) act("both");
  }
});

const ON_KEY = {
  n: TOOLS.next, j: () => choose(beside(1)), ArrowDown: () => choose(beside(1)), k: () => choose(beside(-1)), ArrowUp: () => choose(beside(-1)),
  p: () => act("both"), " ": () => act("both"), b: () => act("earlier"), f: () => act("later"), a: () => act("agree"), A: () => act("room"), e: () => act("correct"),
  w: () => act("why"), t: () => act("pair"), m: () => act("join"), s: () => act("split"), o: () => act("reopen"), g: TOOLS.laws, u: TOOLS.undo, r: TOOLS.redo, "?": TOOLS.help,
};
for (const [verdict, { key }] of Object.entries(VERDICTS)) ON_KEY[key] = () => act("judge", verdict);

onKeys((event, acts) => (acts ? ON_KEY[event.key] : null), new Set(["j", "k", "ArrowDown", "ArrowUp"]));
keepStageInView();
start();
