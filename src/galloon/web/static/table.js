// The table: handles that are dragged or moved by arrow keys, and everything that answers.
import { svg } from "/static/svg.js";
import { base, begin, during, newestWins, saying, send, sendSurely, wrong } from "/static/talk.js";

const first = JSON.parse(document.getElementById("said").textContent);
const words = first.words;
const sheet = document.getElementById("sheet");
const drawing = document.getElementById("drawing");
const handles = document.getElementById("handles");
let held = null;
let known = {};
let version = Number(document.getElementById("design").dataset.version);

function show(said) {
  if (said.version !== undefined) {
    version = said.version;
    document.querySelector('[data-do="undo"]').disabled = said.undo === 0;
    document.querySelector('[data-do="redo"]').disabled = said.redo === 0;
  }
  if (said.faults) return wrong(said.faults, said.title);
  wrong(null);
  if (held === null) sheet.setAttribute("viewBox", said.box);
  if (changed("laces", said.laces)) showLaces(said.laces || []);
  if (held === null && changed("picked", said.picked)) {
    for (const [id, value] of Object.entries(said.picked)) document.getElementById(id).value = value;
  }
  drawing.innerHTML = said.drawing;
  placeHandles(said.handles);
  if (changed("figures", said.figures)) showFigures(said.figures);
  if (held === null && changed("says", said.says)) showSays(said.says);
}

const shown = {};
function changed(what, now) {
  const text = JSON.stringify(now);
  if (shown[what] === text) return false;
  shown[what] = text;
  return true;
}

// The picture of each lace is on the page once; what is drawn at every move only says how it lies.
function showLaces(list) {
  document.getElementById("laces").replaceChildren(...list.map((one) => {
    const pattern = svg("pattern", { id: one.id, patternUnits: "userSpaceOnUse", width: one.length, height: one.tall });
    pattern.append(svg("image", { href: one.address, width: one.length, height: one.width, preserveAspectRatio: "none" }));
    return pattern;
  }));
}

function showFigures(figures) {
  document.getElementById("figures").replaceChildren(...figures.flatMap(([word, value]) => [
    Object.assign(document.createElement("dt"), { textContent: word }),
    Object.assign(document.createElement("dd"), { textContent: value }),
  ]));
}

function placeHandles(list) {
  const seen = new Set();
  for (const one of list) {
    seen.add(one.key);
    const place = handles.querySelector(`[data-key="${one.key}"]`) || newHandle(one);
    known[one.key] = one;
    place.setAttribute("transform", `translate(${one.x} ${one.y})`);
    place.setAttribute("aria-valuenow", one.value);
    place.setAttribute("aria-valuetext", one.says);
    place.lastChild.textContent = `${one.word}: ${one.says}`;
    place.lastChild.setAttribute("text-anchor", one.x > sheet.viewBox.baseVal.width / 2 ? "end" : "start");
  }
  for (const old of [...handles.children]) if (!seen.has(old.dataset.key) && old.dataset.key !== held?.key) old.remove();
}

function newHandle(one) {
  const made = svg("g", {
    class: one.free ? "handle free" : "handle", "data-key": one.key, tabindex: 0, role: "slider", "aria-label": one.word,
    "aria-valuemin": one.low, "aria-valuemax": one.high,
  });
  made.append(svg("circle", { class: "grip", r: 11 }), svg("path", { d: one.free ? "M-8 0H8M0 -8V8" : arrow(one) }), svg("circle", { r: 4 }), svg("text", { y: -13 }));
  made.addEventListener("pointerdown", grab);
  made.addEventListener("keydown", nudge);
  handles.append(made);
  return made;
}

function arrow(one) {
  const [x, y] = [one.ax * 9, one.ay * 9];
  return `M${-x} ${-y}L${x} ${y}`;
}

function spot(event) {
  const matrix = sheet.getScreenCTM().inverse();
  return new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
}

// Asks are numbered as they are made. An answer is shown unless a later one is shown already; asks that are kept go one
// after another, so that they stand in the order in which they were made.
let asked = 0;
let answered = 0;
function answer(number, said) {
  if (number < answered) return;
  answered = number;
  show(said);
}

const tried = newestWins(async ({ key, to }) => {
  const number = ++asked;
  try {
    const { data } = await send(`${base}/try`, { handle: key, to });
    answer(number, data);
  } catch {
    // Told already; what is kept is sent again.
  }
});

let line = Promise.resolve();
function keep(body, path = "keep") {
  if (moved) rest();
  tried.drop();
  const number = ++asked;
  const work = async () => {
    saying(true);
    const { ok, data } = await sendSurely(`${base}/${path}`, body);
    saying(false);
    if (ok) {
      answer(number, data);
      freshCard();
    } else {
      answer(number, (await send(`${base}/try`, { changes: [] })).data);
      wrong(data.faults, data.title);
    }
    if (number === asked) aims.clear();
    return ok;
  };
  const done = during(() => line.then(work));
  line = done.catch(() => {});
  return done;
}

// The newest move of a key is shown at once and kept when the keys rest, at the latest when the page is left.
// `aims` is where each handle was last sent, for the next key that comes before its answer.
const aims = new Map();
let moved = null;
let resting = 0;
let rested = null;
function moveByKey(move) {
  if (moved && moved.key !== move.key) rest();
  moved = move;
  aims.set(move.key, move.to);
  rested ||= begin();
  tried(move);
  clearTimeout(resting);
  resting = setTimeout(rest, 250);
}
function rest() {
  clearTimeout(resting);
  const move = moved;
  moved = null;
  if (move) keep({ handle: move.key, to: move.to });
  if (rested) rested();
  rested = null;
}
window.addEventListener("pagehide", () => {
  if (moved) send(`${base}/keep`, { handle: moved.key, to: moved.to }, { leaving: true });
  moved = null;
});

let drawnLater = 0;
function freshCard() {
  clearTimeout(drawnLater);
  drawnLater = setTimeout(() => {
    for (const one of document.querySelectorAll("#card, #large img")) one.src = `${base}/garment.svg?v=${version}`;
  }, 150);
}

async function grab(event) {
  if (moved) rest();
  const key = event.currentTarget.dataset.key;
  const from = spot(event);
  const one = known[key];
  held = { key, to: one.value, moved: false };
  const place = event.currentTarget;
  place.classList.add("held");
  place.setPointerCapture(event.pointerId);
  place.focus({ preventScroll: true });
  const drag = (moved) => {
    const at = spot(moved);
    const by = (at.x - from.x) * one.ax + (at.y - from.y) * one.ay;
    held.moved = true;
    if (one.free) held.to = [one.free[0] + at.x - from.x, one.free[1] - at.y + from.y];
    else held.to = Math.min(one.high, Math.max(one.low, one.value + one.sign * by));
    tried(held);
  };
  const drop = async () => {
    place.removeEventListener("pointermove", drag);
    place.removeEventListener("pointerup", drop);
    place.removeEventListener("pointercancel", drop);
    place.classList.remove("held");
    const last = held;
    held = null;
    if (last.moved) await keep({ handle: last.key, to: last.to });
  };
  place.addEventListener("pointermove", drag);
  place.addEventListener("pointerup", drop);
  place.addEventListener("pointercancel", drop);
  event.preventDefault();
}

function nudge(event) {
  const steps = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
  const step = steps[event.key];
  if (!step) return;
  event.preventDefault();
  const one = known[event.currentTarget.dataset.key];
  const way = step[0] * one.ax + step[1] * one.ay;
  const other = Math.abs(way) > 0.2 ? way : -step[1] || step[0];
  if (one.free) {
    const [x, y] = aims.get(one.key) ?? one.free;
    const far = event.shiftKey ? 10 : 1;
    return moveByKey({ key: one.key, to: [x + step[0] * far, y - step[1] * far] });
  }
  const size = (event.shiftKey ? 10 : 1) * (one.key.startsWith("turn") ? 40 : 1);
  const from = aims.get(one.key) ?? one.value;
  const to = Math.min(one.high, Math.max(one.low, from + one.sign * Math.sign(other) * size));
  moveByKey({ key: one.key, to });
}

function showSays(list) {
  const good = list.filter((one) => one.status === "pass");
  const rest = list.filter((one) => one.status !== "pass");
  const box = document.getElementById("good");
  document.getElementById("says").replaceChildren(...items(rest));
  box.querySelector("ul").replaceChildren(...items(good));
  box.querySelector("summary").textContent = words["table.good"].replace("{count}", good.length);
  box.hidden = good.length === 0;
  const worst = rest.some((one) => one.status === "fail") ? "fail" : rest.length ? "warn" : "pass";
  document.getElementById("verdict").textContent = words[`table.verdict.${worst}`];
}

function items(list) {
  return list.map((one) => {
    const item = document.createElement("li");
    item.className = one.status;
    const word = Object.assign(document.createElement("span"), { className: "word", textContent: one.word });
    const text = Object.assign(document.createElement("button"), { className: "text", type: "button", textContent: one.text });
    const point = () => pointAt(one.about);
    text.addEventListener("click", point);
    text.addEventListener("focus", point);
    text.addEventListener("mouseenter", point);
    item.append(word, text);
    if (one.status !== "pass") item.append(mender(one));
    return item;
  });
}

function mender(one) {
  const box = Object.assign(document.createElement("div"), { className: "mend" });
  const ask = Object.assign(document.createElement("button"), { className: "quiet", type: "button", textContent: words["table.mend"] });
  ask.addEventListener("click", async () => {
    ask.textContent = words["table.looking"];
    const { data } = await during(() => send(`${base}/mends`, { name: one.name }));
    const found = (data.mends || []).map((mend) => {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: mend.label });
      button.addEventListener("click", () => keep({ changes: mend.changes }));
      return button;
    });
    box.replaceChildren(...(found.length ? found : [Object.assign(document.createElement("span"), { textContent: words["table.none"] })]));
    const first = box.querySelector("button");
    if (first) first.focus();
  });
  box.append(ask);
  return box;
}

function pointAt(about) {
  for (const old of drawing.querySelectorAll(".pointed")) old.classList.remove("pointed");
  const [piece] = about.split("/");
  for (const path of drawing.querySelectorAll("[data-about]")) {
    const name = path.dataset.about;
    if (name === about || (!about.includes("/") && (name === piece || name.endsWith(`/${about}`)))) path.classList.add("pointed");
  }
}

for (const button of document.querySelectorAll("[data-do]")) {
  button.addEventListener("click", () => keep({}, button.dataset.do));
}
for (const list of document.querySelectorAll(".tools select")) {
  list.addEventListener("change", () => {
    const given = list.selectedOptions[0].dataset.changes;
    keep({ changes: given ? JSON.parse(given) : [[JSON.parse(list.dataset.path), list.value]] });
  });
}
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  keep({}, event.shiftKey ? "redo" : "undo");
});
document.querySelector("[data-card]").addEventListener("click", () => document.getElementById("large").showModal());

// Another window may have changed the same design.
async function look() {
  if (held !== null || moved !== null || document.hidden) return;
  try {
    const answer = await fetch(`${base}/version`);
    const newest = await answer.json();
    if (newest.version === version || held !== null || moved !== null) return;
    const number = ++asked;
    answer(number, (await send(`${base}/try`, { changes: [] })).data);
  } catch {
    document.querySelector(".lost").hidden = false;
  }
}
setInterval(look, 4000);
document.addEventListener("visibilitychange", look);
show({ ...first.said });
