// What is asked for apart from the spine: another outcome, another pairing, a reason, what to put together or apart.

import { comparison, entriesOf, flawsOf, outcomeOf, SIDES, stateOf } from "./comparison.js";
import { close, show } from "./dialog.js";
import { guidanceList } from "./guidance.js";
import { VERDICTS } from "./judging_desk.js";
import { button, make } from "./make.js";

const ends = (word) => make("div", { class: "ends" }, make("button", { type: "submit", class: "main", text: word }), button("Cancel", close, "Esc"));

// A form that closes once what it asks for was kept.
function form(word, done, ...parts) {
  const kept = async (event) => {
    event.preventDefault();
    if (await done(event.target.elements)) close();
  };
  return make("form", { class: "asked", on: { submit: kept } }, ...parts, ends(word));
}

// Nothing is chosen beforehand: what a person has not said is never filled in.
function radios(name, legend, choices) {
  const one = ({ value, text, more }) =>
    make("label", { class: "check" }, make("input", { type: "radio", name, value, required: true }), make("span", {}, make("strong", { text }), more ? ` ${more}` : ""));
  return make("fieldset", {}, make("legend", { text: legend }), ...choices.map(one));
}

export function askOutcome(change, done) {
  const { became, means } = comparison.words;
  const others = [...change.fitting.filter((one) => one !== change.outcome), change.outcome];
  const choices = others.map((value) => ({ value, text: became[value], more: means[value] }));
  show(`What became of it: ${change.title}`, form("Keep", (elements) => done(elements.outcome.value), radios("outcome", "It is", choices)));
}

export function askWhy(change, done) {
  const choices = Object.entries(VERDICTS).map(([value, { does }]) => ({ value, text: does }));
  const why = make("textarea", { name: "why", rows: "3", maxlength: "2000" });
  why.value = change.judgement?.why ?? "";
  const asked = form("Keep", (elements) => done(elements.verdict.value, elements.why.value), radios("verdict", "You judge", choices), make("label", {}, "Because (may stay empty)", why));
  if (change.judgement) asked.elements.verdict.value = change.judgement.verdict;
  show(`Judge: ${change.title}, ${outcomeOf(change)}`, asked);
}

// What may have become of it, to be said together with a new pairing.
function outcomes(values) {
  const select = make("select", { name: "became" }, make("option", { value: "", text: "not said yet" }));
  for (const value of values) select.append(make("option", { value, text: comparison.words.became[value] }));
  return make("label", {}, "What became of it then ", select);
}

export function askPair(change, found, done) {
  if (!found.length) {
    show("Pair otherwise", make("p", { text: "There is no other flaw in the other record to pair it with." }), make("div", { class: "ends" }, button("Close", close, "Esc")));
    return;
  }
  const choices = found.map(({ side, entry }, at) => ({ value: String(at), text: `${comparison.records[side].name}, ${entry.evidence[0].clock}: ${entry.title}, ${entry.says}`, more: `(${entry.room_name}) “${entry.evidence[0].quote}”` }));
  const lead = "The one that you choose comes into this change. What stands there of the same walk goes into a change of its own.";
  const chosen = (elements) => done(found[Number(elements.entry.value)], elements.became.value || null);
  show(`Pair otherwise: ${change.title}`, make("p", { text: lead }), form("Pair", chosen, radios("entry", "It is about", choices), outcomes(["unchanged", "worse", "better"])));
}

export function askJoin(change, others, done) {
  const choices = others.map((other) => ({ value: other.id, text: `${other.room_name}: ${other.title}, ${outcomeOf(other)}`, more: SIDES.flatMap((side) => entriesOf(other, side)).map((entry) => `“${entry.evidence[0].quote}”`).join(" ") }));
  const made = form("Join", (elements) => done(elements.other.value, elements.became.value || null), radios("other", "Together with", choices), outcomes([]));
  const select = made.elements.became;
  const fill = () => {
    const other = comparison.changes.get(made.elements.other.value);
    const has = (side) => [change, other].some((one) => flawsOf(one, side).length);
    const fitting = has("before") && has("after") ? ["unchanged", "worse", "better"] : has("before") ? ["not_mentioned", "gone"] : ["no_baseline", "new"];
    select.replaceChildren(...outcomes(fitting).querySelector("select").children);
  };
  made.addEventListener("change", (event) => { if (event.target.name === "other") fill(); });
  fill();
  show(`Join with: ${change.title}`, make("p", { text: "Several that are one flaw become one change. A judgement that was given is to be given anew." }), made);
}

export function askSplit(change, done) {
  const boxes = SIDES.flatMap((side) =>
    entriesOf(change, side).map((entry) =>
      make("label", { class: "check" }, make("input", { type: "checkbox", name: side, value: entry.id }), make("span", { text: `${comparison.records[side].name}, ${entry.evidence[0].clock}: ${entry.title}, ${entry.says} “${entry.evidence[0].quote}”` }))));
  const chosen = (elements) => {
    const ids = (side) => [...elements].filter((one) => one.name === side && one.checked).map((one) => one.value);
    return done({ before: ids("before"), after: ids("after") });
  };
  show(`Split: ${change.title}`, form("Split", chosen, make("fieldset", {}, make("legend", { text: "These go into a change of their own" }), ...boxes)));
}

// What needs no judgement, listed before it is agreed to together.
export function showRoom(room, changes, agree) {
  const quotes = (change) => SIDES.flatMap((side) => entriesOf(change, side)).map((entry) => `“${entry.evidence[0].quote}”`).join(" – ");
  const list = make("ul", {}, ...changes.map((change) => make("li", { text: `${change.title}: ${outcomeOf(change)} (${stateOf(change)}) ${quotes(change)}` })));
  const yes = button(`Agree to these ${changes.length}`, async () => { if (await agree(changes.map((change) => change.id))) close(); }, "Enter", { class: "main", autofocus: true });
  show(`${room}: without a judgement`, list, make("div", { class: "ends" }, yes, button("Not together", close, "Esc")));
}

export function showLaws(change) {
  const rows = change ? [...change.guidance, ...change.more_guidance] : [];
  show(
    "Published guidance and how laws word it",
    make("p", { text: "Published lists to compare with. They are no law and decide nothing; your local law and its courts do. Check the current statute. This is no legal advice." }),
    change ? make("h3", { text: `On ${change.title}` }) : null,
    rows.length ? guidanceList(rows) : make("p", { text: "Nothing was found on this component." }),
    make("h3", { text: "How laws word ordinary wear" }),
    guidanceList(comparison.definitions),
    make("div", { class: "ends" }, button("Close", close, "Esc")),
  );
}
