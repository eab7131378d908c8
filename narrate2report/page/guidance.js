// Published guidance as it stands in its table, each row with its source and how well that is verified.

import { comparison } from "./comparison.js";
import { make } from "./make.js";

export const guidanceList = (rows) => make("ul", { class: "guidance" }, ...rows.map((id) => row(comparison.guidance[id])));

function row(one) {
  return make(
    "li",
    {},
    make("strong", { text: one.kind === "conflict" ? "Where they differ" : one.component }),
    one.kind === "pair" ? make("dl", {}, ...pair("Ordinary wear", one.ordinary_wear_example), ...pair("Damage", one.damage_example)) : make("p", { text: one.ordinary_wear_example }),
    make("p", { class: "source", text: source(one) }),
  );
}

const pair = (name, text) => (text ? [make("div", {}, make("dt", { text: name }), make("dd", { text }))] : []);

function source(one) {
  const note = one.note ? ` Note: ${one.note}.` : "";
  return `Source: ${one.source}. Checked against: ${one.verified}. Confidence: ${one.confidence}.${note}`;
}
