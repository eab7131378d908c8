// The one screen of a walk's page.

import { makePlayer } from "./player.js";
import { walk } from "./walk.js";

export const { moment, isPlaying, onMoment, play, lookAt, pause, show } = makePlayer(document.querySelector("#player"), document.querySelector("#screen-note"), () => walk.recordings);
