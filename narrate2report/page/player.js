// The recording: plays a statement and stops at its end, and says which moment it is at.

import { ask, walk } from "./walk.js";

const video = document.querySelector("#player");
const note = document.querySelector("#screen-note");
let current = null;
let stopAt = null;
let wanted = null;
let watching = null;

export const moment = () => ({ recording: current ?? 0, at: video.currentTime });
export const isPlaying = () => !video.paused;

export function onMoment(act) {
  for (const event of ["timeupdate", "seeked"]) video.addEventListener(event, () => act(current ?? 0, video.currentTime));
}

// Plays from start to end (seconds); without an end it goes on.
export async function play(recording, start, end = null) {
  if (!(await show(recording))) return;
  video.currentTime = start;
  stopAt = end;
  await video.play().catch(() => {});
  watch();
}

// Shows the picture at a moment without playing, unless something is playing or another recording is at hand.
export async function lookAt(recording, at) {
  wanted = at;
  if (!video.paused || !(await show(recording)) || wanted !== at) return;
  video.currentTime = at;
}

export function pause() {
  stopAt = null;
  video.pause();
}

export async function show(recording) {
  if (current === recording) return !video.hidden;
  const facts = walk.recordings[recording];
  const state = facts && facts.media ? await ask(`api/playing/${recording}`).catch((error) => ({ why: error.message })) : {};
  if (!state.ready) {
    say(facts, state);
    if (typeof state.progress === "number") setTimeout(() => show(recording), 1500);
    return false;
  }
  current = recording;
  video.hidden = false;
  note.hidden = true;
  video.src = `recording/${recording}`;
  await new Promise((done) => {
    video.addEventListener("loadedmetadata", done, { once: true });
    video.addEventListener("error", () => { say(facts, { why: "this browser cannot play it" }); done(); }, { once: true });
  });
  return !video.hidden;
}

function say(facts, state) {
  video.hidden = true;
  note.hidden = false;
  if (!facts || !facts.media) note.textContent = "A written transcript: there is no recording to play.";
  else if (typeof state.progress === "number")
    note.textContent = `${facts.file}: a copy that browsers can play is being made (${Math.round(state.progress * 100)} %). Times stay those of the recording.`;
  else note.textContent = `${facts.file}: ${state.why || "cannot be played here"}.`;
}

// timeupdate comes four times a second, too seldom to stop at the end of a word.
function watch() {
  if (watching !== null) return;
  const look = () => {
    if (stopAt !== null && video.currentTime >= stopAt) pause();
    watching = video.paused ? null : requestAnimationFrame(look);
  };
  watching = requestAnimationFrame(look);
}
