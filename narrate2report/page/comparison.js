// The comparison as this window knows it: fetched once, then kept in step with every decision.
// Nothing counts as decided here before the server has answered that it is on disk.

import { ask, sendDecision } from "./talk.js";

export const SIDES = ["before", "after"];
export const comparison = { changes: new Map(), order: [], head: 0 };

export async function open() {
  const told = await ask("api/changes");
  for (const name of ["title", "records", "recordings", "entries", "words", "guidance", "definitions", "reviewer"]) comparison[name] = told[name];
  for (const change of told.changes) comparison.changes.set(change.id, change);
  arrange(told.changes.map((change) => change.id));
  progress(told);
}

export const decide = (request, by) => sendDecision(request, by, comparison.head, takeIn);

export async function lookForOthers() {
  const told = await ask(`api/since/${comparison.head}`);
  return told.head === comparison.head ? null : takeIn(told);
}

export const pairable = async (change) => (await ask(`api/pairable/${encodeURIComponent(change)}`)).entries.map(([side, id]) => ({ side, entry: entryOf(side, id) }));

const entryOf = (side, id) => comparison.entries[side][id];
export const entriesOf = (change, side) => change[side].map((id) => entryOf(side, id));
export const flawsOf = (change, side) => entriesOf(change, side).filter((entry) => entry.adverse);
export const outcomeOf = (change) => comparison.words.became[change.outcome];

// What a change waits for, or what was made of it, in words.
export function stateOf(change) {
  if (change.judgement && change.judgement.verdict !== "open") return comparison.words.verdicts[change.judgement.verdict];
  const waits = [change.confirmed ? null : "to confirm", needsJudging(change) && !change.judgement ? "to judge" : null].filter(Boolean);
  if (change.judgement) waits.push(comparison.words.verdicts.open);
  return waits.join(", ") || "agreed";
}

export const needsJudging = (change) => comparison.words.to_judge.includes(change.outcome);

function takeIn(told) {
  const before = layout();
  for (const [id, change] of Object.entries(told.changes)) {
    if (change) comparison.changes.set(id, change);
    else comparison.changes.delete(id);
  }
  arrange(told.order);
  progress(told);
  return { changes: Object.keys(told.changes), by: told.by, moved: layout() !== before };
}

const layout = () => comparison.order.map((id) => `${id} ${comparison.changes.get(id)?.room}`).join("\n");

// Room by room, in the order in which the rooms first come.
function arrange(order) {
  const rooms = new Map();
  for (const id of order) {
    const { room } = comparison.changes.get(id);
    rooms.set(room, [...(rooms.get(room) ?? []), id]);
  }
  comparison.order = [...rooms.values()].flat();
}

function progress(told) {
  comparison.head = told.head;
  comparison.toConfirm = told.to_confirm;
  comparison.toJudge = told.to_judge;
  comparison.leftOpen = told.left_open;
  comparison.canUndo = told.can_undo;
  comparison.canRedo = told.can_redo;
}
