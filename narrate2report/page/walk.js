// The walk as this window knows it: fetched once, then kept in step with every decision.
// Nothing counts as decided here before the server has answered that it is on disk.

import { ask, post, sendDecision } from "./talk.js";

export const walk = { entries: new Map(), order: [], sentences: [], unused: new Map(), coverage: new Map(), head: 0 };

export const gapKey = (gap) => `${gap.room}/${gap.component}`;

export async function open() {
  const told = await ask("api/walk");
  Object.assign(walk, { title: told.walk, recordings: told.recordings, sentences: inOrder([...told.sentences, ...told.gaps]), choices: told.choices, fields: told.fields });
  walk.reviewer = told.reviewer;
  walk.canSeal = told.can_seal;
  walk.statement = told.statement;
  walk.seal = told.seal;
  for (const entry of told.entries) walk.entries.set(entry.id, entry);
  walk.order = told.entries.map((entry) => entry.id);
  for (const one of walk.sentences) if (one.unused) walk.unused.set(one.id, one.unused);
  for (const gap of told.coverage) walk.coverage.set(gapKey(gap), gap);
  progress(told);
}

export const decide = (request, by) => sendDecision(request, by, walk.head, takeIn);

export async function lookForOthers() {
  const told = await ask(`api/since/${walk.head}`);
  return told.head === walk.head && told.sealed === walk.sealed ? null : takeIn(told);
}

export async function seal(by, statement) {
  const answer = await post("api/seal", { by, statement });
  if (!answer.ok) throw new Error(answer.body.error);
  return answer.body.sha256;
}

function takeIn(told) {
  for (const [id, entry] of Object.entries(told.entries)) {
    if (entry) walk.entries.set(id, entry);
    else walk.entries.delete(id);
  }
  if (told.order) walk.order = told.order;
  for (const [id, reason] of Object.entries(told.unused)) {
    if (reason) walk.unused.set(id, reason);
    else walk.unused.delete(id);
  }
  for (const gap of told.coverage) walk.coverage.set(gapKey(gap), gap);
  progress(told);
  return { entries: Object.keys(told.entries), unused: Object.keys(told.unused), by: told.by };
}

const inOrder = (lines) => lines.sort((one, other) => one.recording - other.recording || one.start - other.start);

function progress(told) {
  walk.head = told.head;
  walk.undecided = told.undecided;
  walk.openGaps = told.open_gaps;
  walk.calledOut = told.called_out;
  walk.sealed = told.sealed;
  walk.canUndo = told.can_undo;
  walk.canRedo = told.can_redo;
}
