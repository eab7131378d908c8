// The form in which an entry is changed or a new one made: the fields of its kind, with what there is to choose from.

import { button, make } from "./make.js";
import { walk } from "./walk.js";

const TIMES = ["start", "end"];
const isChosen = (name) => walk.fields.chosen.includes(name);

// `given` holds the fields as they stand; `done` is called with those that were changed.
export function factsForm(given, { done, cancel, word, nudge }) {
  const form = make("form", { class: "facts", "aria-label": word });
  const draw = (kind) => {
    const { own, always } = walk.fields;
    const shown = ["kind", "room", "component", ...own[kind], ...always.filter((name) => "start" in given || !TIMES.includes(name))];
    const typed = form.elements.length ? read(form, given) : {};
    form.replaceChildren(
      ...shown.map((name) => field(name, typed[name] !== undefined ? typed[name] : given[name], kind)),
      ...walk.fields.chosen.map(choiceList),
      make("p", { class: "wide actions" }, make("button", { type: "submit", class: "main" }, `${word} `, make("kbd", { text: "Enter" })), button("Cancel", cancel, "Esc")),
    );
  };
  draw(given.kind);
  form.addEventListener("change", (event) => {
    if (event.target.name !== "kind") return;
    draw(event.target.value);
    form.elements.kind.focus();
  });
  form.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { event.preventDefault(); event.stopPropagation(); cancel(); }
    if (event.altKey && ["ArrowLeft", "ArrowRight"].includes(event.key) && TIMES.includes(event.target.name)) {
      event.preventDefault();
      const moved = Math.max(0, Number(event.target.value) + (event.key === "ArrowLeft" ? -0.1 : 0.1));
      event.target.value = moved.toFixed(2);
      nudge?.(event.target.name, moved);
    }
  });
  form.addEventListener("moved", (event) => nudge?.(event.target.name, event.detail));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const now = read(form, given);
    const unknown = walk.fields.chosen.find((name) => now[name] === undefined && form.elements[name]?.value.trim());
    if (unknown) {
      form.elements[unknown].setCustomValidity(`Not a known ${unknown}: choose one from the list. New ones go into your own words (guide vocabulary).`);
      form.elements[unknown].reportValidity();
      return;
    }
    done(Object.fromEntries(Object.entries(now).filter(([name, value]) => value !== undefined && value !== (given[name] ?? null))));
  });
  form.addEventListener("input", (event) => event.target.setCustomValidity?.(""));
  return form;
}

const labelled = (name) => walk.fields.labels[name] + (TIMES.includes(name) ? " (seconds)" : "");

function field(name, value, kind) {
  if (name === "pre_existing") return make("label", { class: "check" }, make("input", { type: "checkbox", name, checked: Boolean(value) }), labelled(name));
  return make("label", { class: name === "note" ? "wide" : null }, labelled(name), control(name, value, kind));
}

function control(name, value, kind) {
  const picks = walk.fields.picks[name];
  if (picks) {
    // What a person has not said is never filled in: a test that nobody made would stand in the record.
    const mayStay = walk.fields.unsaid.includes(name);
    const missing = name !== "kind" && !value && !mayStay;
    const select = make("select", { name, required: missing });
    if (missing || mayStay) select.append(make("option", { value: "", text: mayStay ? "not said" : "choose one" }));
    for (const [id, text] of Object.entries(picks)) select.append(make("option", { value: id, text, selected: id === (name === "kind" ? kind : value ?? "") }));
    return select;
  }
  if (isChosen(name))
    return make("input", { name, list: `all-${name}`, required: true, autocomplete: "off", value: value ? labelOf(name, value) : "" });
  if (TIMES.includes(name)) return timeControl(name, value);
  if (name === "quantity")
    return make("input", { name, type: "number", min: "0", step: "1", value: value === null || value === undefined ? "" : String(value) });
  return make("input", { name, maxlength: "2000", value: value ?? "" });
}

// A time to type, to nudge by keys, or to drag.
function timeControl(name, value) {
  const typed = make("input", { name, type: "number", min: "0", step: "0.01", value: String(value) });
  const from = Math.max(0, value - 8);
  const slider = make("input", { type: "range", min: String(from), max: String(value + 8), step: "0.05", value: String(value), "aria-label": `${labelled(name)}, to drag` });
  slider.addEventListener("input", () => { typed.value = Number(slider.value).toFixed(2); });
  slider.addEventListener("change", () => typed.dispatchEvent(new CustomEvent("moved", { bubbles: true, detail: Number(slider.value) })));
  return make("span", {}, typed, slider);
}

function read(form, given) {
  const found = {};
  for (const control of form.elements) {
    if (!control.name) continue;
    const value = control.value.trim();
    if (control.type === "checkbox") found[control.name] = control.checked;
    else if (isChosen(control.name)) found[control.name] = value ? idOf(control.name, value) : null;
    else if (control.type === "number") found[control.name] = value === "" ? null : Number(value);
    else found[control.name] = value === "" ? null : value;
  }
  if (found.pre_existing === false && !given.pre_existing) delete found.pre_existing;
  return found;
}

const choicesOf = (name) => walk.choices[`${name}s`];
const labelOf = (name, id) => choicesOf(name).find((one) => one.id === id)?.label ?? id;

function idOf(name, typed) {
  const wanted = typed.toLowerCase();
  const all = choicesOf(name);
  const found = all.find((one) => one.label.toLowerCase() === wanted || one.id === wanted) ?? all.find((one) => one.also.includes(wanted));
  return found?.id;
}

function choiceList(name) {
  const list = make("datalist", { id: `all-${name}` });
  for (const one of choicesOf(name)) list.append(make("option", { value: one.label, text: one.also.slice(0, 6).join(", ") }));
  return list;
}
