// What a card on a phone does beyond being a list: keeps its ticks, its counts and the time on this phone.
"use strict";
{
  const NAME = `narrate2report card ${document.documentElement.dataset.card}`;
  const words = document.querySelector("#words").dataset;
  const one = (selector) => document.querySelector(selector);
  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  const boxes = all("input[type=checkbox]");
  const counts = all("input[type=text]");
  const rooms = all("section.room");
  const nothing = () => ({ ticks: {}, counts: {}, began: null, spent: 0, turn: 0 });
  let state = nothing();

  // What was kept may be from a crash, another version or nothing at all: only what fits is taken.
  function taken(text) {
    try {
      const told = JSON.parse(text ?? "{}");
      const whole = (value) => (value !== null && typeof value === "object" ? value : {});
      const number = (value) => (Number.isFinite(value) && value >= 0 ? value : null);
      return { ticks: whole(told.ticks), counts: whole(told.counts), began: number(told.began), spent: number(told.spent) ?? 0, turn: number(told.turn) ?? 0 };
    } catch {
      return nothing();
    }
  }

  function tell(text, refused = false) {
    const notice = one("#keeping");
    notice.textContent = text;
    notice.classList.toggle("notice", refused);
  }

  // Chromium now and then loses what a page that is a file wrote into its storage just before it is loaded again (on
  // this project's machines 23 times in 700); what it wrote into this tab's history stayed. So it is kept in both.
  function keep() {
    state.turn += 1;
    const text = JSON.stringify(state);
    history.replaceState(text, "");
    try {
      localStorage.setItem(NAME, text);
      return true;
    } catch {
      tell(words.refused, true);
      return false;
    }
  }

  function stored() {
    try {
      return taken(localStorage.getItem(NAME));
    } catch {
      return state;
    }
  }

  function read() {
    const here = taken(history.state);
    const kept = stored();
    state = here.turn > kept.turn ? here : kept;
  }

  const elapsed = () => Math.max(0, state.spent + (state.began === null ? 0 : Date.now() - state.began)) / 1000;

  // As a player shows it: 1:15, and 1:01:15 after an hour.
  function clock(seconds) {
    const whole = Math.floor(seconds);
    const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
    const two = (number) => String(number).padStart(2, "0");
    return hours ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
  }

  const open = (room) => all("input[type=checkbox]", room).some((box) => !box.checked);
  const filled = (text, n, total) => text.replace("{n}", n).replace("{all}", total);

  function showTime() {
    one("#elapsed").textContent = clock(elapsed());
  }

  function show() {
    for (const box of boxes) {
      box.checked = box.dataset.key in state.ticks;
      const at = state.ticks[box.dataset.key];
      box.closest(".row").querySelector(".at").textContent = Number.isFinite(at) ? clock(at) : "";
    }
    for (const field of counts) if (field !== document.activeElement) field.value = state.counts[field.dataset.key] ?? "";
    for (const room of rooms) {
      const within = all("input[type=checkbox]", room);
      one(`#${room.id} .left`).textContent = filled(words.left, within.filter((box) => box.checked).length, within.length);
    }
    one("#ticked").textContent = filled(words.ticked, boxes.filter((box) => box.checked).length, boxes.length);
    one("#run").textContent = state.began !== null ? words.stop : state.spent ? words.goOn : words.start;
    one("#next").textContent = rooms.some(open) ? words.next : words.noneOpen;
    one("#next").disabled = !rooms.some(open);
    showTime();
  }

  function tick(box) {
    if (box.checked) state.ticks[box.dataset.key] = state.began !== null || state.spent ? Math.floor(elapsed()) : null;
    else delete state.ticks[box.dataset.key];
    keep();
    show();
  }

  function startOrStop() {
    if (state.began === null) state.began = Date.now();
    else [state.spent, state.began] = [elapsed() * 1000, null];
    keep();
    show();
  }

  // The next one below the top of the screen, else the first one left behind.
  function goOn() {
    const left = rooms.filter(open);
    const below = left.filter((room) => room.getBoundingClientRect().top > 20);
    const heading = (below[0] ?? left[0])?.querySelector("h2");
    heading?.scrollIntoView({ block: "start" });
    heading?.focus({ preventScroll: true });
  }

  let sure = null;
  function clear() {
    if (sure === null) {
      one("#clear").textContent = words.clearSure;
      sure = setTimeout(unsure, 5000);
      return;
    }
    unsure();
    state = { ...nothing(), turn: state.turn };
    if (keep()) tell(words.cleared);
    show();
  }
  function unsure() {
    clearTimeout(sure);
    sure = null;
    one("#clear").textContent = words.clear;
  }

  for (const box of boxes) box.addEventListener("change", () => tick(box));
  for (const field of counts) {
    field.addEventListener("input", () => {
      state.counts[field.dataset.key] = field.value;
      keep();
    });
  }
  one("#clock").addEventListener("click", startOrStop);
  one("#next").addEventListener("click", goOn);
  one("#clear").addEventListener("click", clear);
  // The same card in another tab, and a page that the phone took out of memory and brought back.
  const again = () => { read(); show(); };
  addEventListener("storage", again);
  addEventListener("pageshow", again);
  setInterval(showTime, 500);

  read();
  for (const part of all("[data-with-script]")) part.hidden = false;
  if (keep()) tell(words.kept);
  show();
}
