// The change at hand: what was said in both walks, what became of it, how it is judged, what was published about it.

import { comparison, entriesOf, needsJudging, outcomeOf, SIDES, stateOf } from "./comparison.js";
import { guidanceList } from "./guidance.js";
import { button, make, playButton } from "./make.js";
import { giveFocusBack, heldFocus } from "./work.js";

const desk = document.querySelector("#desk");
const said = { before: document.querySelector("#before .said"), after: document.querySelector("#after .said") };
export const VERDICTS = {
  ordinary_wear: { key: "1", does: "Ordinary wear" },
  beyond_ordinary_wear: { key: "2", does: "Beyond ordinary wear" },
  owners_matter: { key: "3", does: "The owner’s matter" },
  open: { key: "0", does: "Leave open" },
};

export function drawDesk(change, act) {
  const held = heldFocus(desk);
  for (const side of SIDES) drawSaid(change, side);
  if (!change) {
    desk.replaceChildren(make("h2", { tabIndex: -1, text: "No change is at hand" }), make("p", { text: "Choose one below, or press n for the next one that is open." }));
    return;
  }
  desk.replaceChildren(
    make("h2", { tabIndex: -1, text: `${change.room_name}: ${change.title}, ${outcomeOf(change)}` }),
    make("p", { class: "means", text: comparison.words.means[change.outcome] }),
    make("p", { class: "state" }, make("strong", { text: stateOf(change) }), who(change)),
    agreeing(change, act),
    verdicts(change, act),
    others(change, act),
    guidance(change),
    make("details", {}, make("summary", { text: "Why it was paired so" }), make("ul", {}, ...change.because.map((reason) => make("li", { text: reason })))),
  );
  desk.scrollTop = 0;
  giveFocusBack(desk, held);
}

function who(change) {
  const told = [];
  if (change.decided) told.push(`agreed to by ${change.decided.by}`);
  if (change.judgement) told.push(`judged by ${change.judgement.by}${change.judgement.why ? `: ${change.judgement.why}` : ""}`);
  return told.length ? ` – ${told.join("; ")}` : "";
}

function drawSaid(change, side) {
  said[side].scrollTop = 0;
  const entries = change ? entriesOf(change, side) : [];
  const none = change ? [make("p", { class: "none", text: "No entry of this walk stands here." })] : [];
  said[side].replaceChildren(...(entries.length ? entries.map((entry) => figure(entry, change.room_name)) : none));
}

function figure(entry, room) {
  const told = [entry.room_name === room ? null : entry.room_name, entry.left_out ? "left out by now: compare again" : entry.adverse ? null : "stands beside it", entry.undecided ? "not reviewed" : null].filter(Boolean);
  const head = make("p", {}, make("strong", { text: `${entry.title}: ${entry.says}` }), told.length ? ` (${told.join(", ")})` : null);
  const quotes = entry.evidence.map((piece) => make("p", { class: "quote" }, playButton(piece), piece.quote ? ` “${piece.quote}”` : " (no words)"));
  const stills = entry.stills.map((still) => make("li", {}, make("img", { src: still.address, alt: `${entry.title}, picture at ${still.clock}` })));
  return make("div", { class: "entry" }, head, ...quotes, stills.length ? make("ul", { class: "stills" }, ...stills) : null);
}

function verdicts(change, act) {
  const given = change.judgement?.verdict;
  const one = ([verdict, { key, does }]) => button(does, () => act("judge", verdict), key, { data: { act: verdict }, "aria-pressed": String(given === verdict), class: given === verdict ? "main" : null });
  return make(
    "div",
    { class: "actions verdicts", role: "group", "aria-label": "How you judge it" },
    make("span", { class: "asks", text: needsJudging(change) ? "You judge:" : "You may judge:" }),
    ...Object.entries(VERDICTS).map(one),
    button("With a reason", () => act("why"), "w", { data: { act: "why" } }),
  );
}

const oneOf = (act) => (text, name, key, more = {}) => button(text, () => act(name), key, { data: { act: name }, ...more });

function agreeing(change, act) {
  const one = oneOf(act);
  return make(
    "div",
    { class: "actions", role: "group", "aria-label": "What became of it" },
    one("Play both", "both", "p"),
    one("Earlier", "earlier", "b"),
    one("Later", "later", "f"),
    one(`Agree: ${outcomeOf(change)}`, "agree", "a", { disabled: change.confirmed, class: change.confirmed || needsJudging(change) ? null : "main" }),
    one("Correct", "correct", "e"),
  );
}

function others(change, act) {
  const one = oneOf(act);
  return make(
    "div",
    { class: "actions", role: "group", "aria-label": "How it is paired" },
    one("Pair otherwise", "pair", "t"),
    one("Join", "join", "m"),
    one("Split", "split", "s"),
    change.confirmed || change.judgement ? one("Decide again", "reopen", "o") : null,
    one("Agree to more of this room", "room", "A"),
  );
}

function guidance(change) {
  const count = change.more_guidance.length;
  const none = make("p", { text: "Nothing was found on this component and condition." });
  return make(
    "section",
    { class: "published", "aria-label": "Published guidance" },
    make("h3", { text: "Published, to compare with" }),
    make("p", { class: "faint", text: "It decides nothing: you do, and your local law and its courts." }),
    change.guidance.length ? guidanceList(change.guidance) : none,
    count ? make("details", {}, make("summary", { text: `${count} more on ${change.title}` }), guidanceList(change.more_guidance)) : null,
  );
}
