// A screen for recordings: plays a statement and stops at its end, and says which moment it is at.

import { ask } from "./talk.js";

// `recordings()` gives the facts of each recording by its number.
export function makePlayer(video, note, recordings) {
  let current = null;
  let stopAt = null;
  let wanted = null;
  let watching = null;
  let ended = null;

  const moment = () => ({ recording: current ?? 0, at: video.currentTime });
  const isPlaying = () => !video.paused;

  function onMoment(act) {
    for (const event of ["timeupdate", "seeked"]) video.addEventListener(event, () => act(current ?? 0, video.currentTime));
  }

  // Plays from start to end (seconds); without an end it goes on. `reached` is called at the end, not when it is stopped.
  async function play(recording, start, end = null, reached = null) {
    ended = null;
    if (!(await show(recording))) return;
    video.currentTime = start;
    stopAt = end;
    ended = reached;
    await video.play().catch(() => {});
    watch();
  }

  // Shows the picture at a moment without playing, unless something is playing or another recording is at hand.
  async function lookAt(recording, at) {
    wanted = at;
    if (!video.paused || !(await show(recording)) || wanted !== at) return;
    video.currentTime = at;
  }

  function pause() {
    stopAt = null;
    ended = null;
    video.pause();
  }

  async function show(recording) {
    if (current === recording) return !video.hidden;
    const facts = recordings()[recording];
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
      if (stopAt !== null && video.currentTime >= stopAt) {
        const reached = ended;
        pause();
        reached?.();
      }
      watching = video.paused ? null : requestAnimationFrame(look);
    };
    watching = requestAnimationFrame(look);
  }

  return { moment, isPlaying, onMoment, play, lookAt, pause, show };
}
