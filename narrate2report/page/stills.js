// Choosing a picture for an entry: the sharpest of its statement first, then frame by frame.

import { button, make } from "./make.js";
import { moment } from "./screen.js";
import { ask } from "./talk.js";

// A strip with the picture at hand. `keep(at)` is called with the moment of the one that is wanted.
export async function pictureStrip(entry, { keep, close }) {
  const { recording, at } = await ask(`api/sharpest/${entry.id}`);
  const picture = make("img", { alt: "" });
  const clock = make("output", { "aria-live": "polite" });
  const strip = make("div", { class: "strip", role: "group", "aria-label": "Choose a picture" });
  const state = { at, recording, busy: false };

  const step = async (steps, from = state.at) => {
    if (state.busy) return;
    state.busy = true;
    try {
      const answer = await fetch(`frame/${recording}?at=${from}&steps=${steps}`);
      if (!answer.ok) throw new Error((await answer.json()).error);
      state.at = Number(answer.headers.get("X-Moment"));
      URL.revokeObjectURL(picture.src);
      picture.src = URL.createObjectURL(await answer.blob());
      await picture.decode().catch(() => {});
      clock.textContent = `${state.at.toFixed(2)} s`;
      picture.alt = `Frame of the recording at ${state.at.toFixed(2)} seconds`;
    } catch (error) {
      clock.textContent = error.message;
    } finally {
      state.busy = false;
    }
  };
  const say = (text) => { clock.textContent = text; };
  await step(0);
  strip.append(
    picture,
    clock,
    button("Frame back", () => step(-1), "["),
    button("Frame on", () => step(1), "]"),
    button("Half a second back", () => strip.jump(-0.5), "{"),
    button("Half a second on", () => strip.jump(0.5), "}"),
    button("Where the recording stands", () => (moment().recording === recording ? step(0, moment().at) : say("The player shows another recording."))),
    button("Keep this picture", () => keep(state.at), "Enter", { class: "main" }),
    button("Close", close, "Esc"),
  );
  strip.step = step;
  strip.jump = (seconds) => step(0, Math.max(0, state.at + seconds));
  strip.keep = () => keep(state.at);
  return strip;
}
