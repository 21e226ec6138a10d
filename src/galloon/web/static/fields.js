// Fields of a form: each is kept when it changes, alone; a quiet word stands beside it where it cannot be.
import { base, during, saying, send, sendSurely, wrong } from "/static/talk.js";

function valueOf(field) {
  if (field.dataset.kind === "flag") return field.checked;
  const text = field.value.trim();
  if (text === "") return null;
  if (field.dataset.kind === "points") return pointsOf(text);
  const plain = text.replace(",", ".");
  if (["length", "number"].includes(field.dataset.kind) && /^-?\d*\.?\d+$/.test(plain)) return Number(plain);
  return text;
}

// Corners, one on a line: two lengths, each a number or a number with its unit; "-6,5" is a number too.
function pointsOf(text) {
  const one = /-?\d*[.,]?\d+(?:\s*(?:mm|cm|in))?/g;
  return text.split("\n").filter((row) => row.trim()).map((row) => (row.match(one) || []).map((part) => {
    const plain = part.replace(",", ".").trim();
    return /[a-z]/.test(plain) ? plain : Number(plain);
  }));
}

async function keep(field) {
  const path = JSON.parse(field.dataset.path);
  saying(true);
  const { ok, data } = await sendSurely(`${base}/keep`, { changes: [[path, valueOf(field)]] });
  saying(false);
  field.setAttribute("aria-invalid", String(!ok));
  wrong(data.faults, data.title);
  if (ok && !data.faults && field.dataset.kind !== "whole") await drawAgain(path);
  if (ok && field.dataset.kind === "whole") location.reload();
}

// One after another, in the order in which they were changed.
let line = Promise.resolve();
function keptInTurn(field) {
  const done = during(() => line.then(() => keep(field)));
  line = done.catch(() => {});
}

async function drawAgain(path) {
  if (path[0] !== "cloth") return;
  const answer = await fetch(`${base}/lace.svg?cloth=${encodeURIComponent(path[1])}`);
  if (!answer.ok) return;
  const place = [...document.querySelectorAll("[data-strip]")].find((one) => one.dataset.strip === path[1]);
  place.innerHTML = await answer.text();
}

for (const field of document.querySelectorAll("[data-path]")) field.addEventListener("change", () => keptInTurn(field));
for (const form of document.querySelectorAll("form.fields:not(#read)")) form.addEventListener("submit", (event) => event.preventDefault());
for (const row of document.querySelectorAll("[data-shows]")) {
  row.addEventListener("focusin", () => {
    const wanted = document.querySelector(`[data-figure="${row.dataset.shows}"]`);
    if (!wanted) return;
    for (const one of document.querySelectorAll("[data-figure]")) one.hidden = one !== wanted;
  });
}
for (const button of document.querySelectorAll("[data-shelve]")) {
  button.addEventListener("click", async () => {
    const { ok, data } = await send(`${base}/shelve`, { kind: button.dataset.shelve, name: button.dataset.called });
    wrong(ok ? null : data.faults);
    if (ok) button.disabled = true;
  });
}

async function alter(body) {
  await during(async () => {
    const { ok, data } = await sendSurely(`${base}/keep`, body);
    if (ok) location.reload();
    else wrong(data.faults, data.title);
  });
}
for (const button of document.querySelectorAll("[data-out]")) {
  button.addEventListener("click", () => alter({ changes: [[JSON.parse(button.dataset.out), null]] }));
}
for (const button of document.querySelectorAll("[data-use]")) {
  const use = { use: "edge trim", cloth: button.dataset.use, panel: "both" };
  button.addEventListener("click", () => alter({ changes: [[["lace", Number(button.dataset.at)], use]] }));
}
for (const field of document.querySelectorAll("[data-rename]")) {
  field.addEventListener("change", () => alter({ rename: [field.dataset.rename, field.value.trim()] }));
}

const START = {
  lace: { kind: "lace", edges: "double scallop", width: "20 cm", scallop_pitch: "4 cm", scallop_depth: "1 cm", repeat: "8 cm", mirror_across: true, second_edge: "mirror", stretch_length: 50, stretch_width: 15 },
  mesh: { kind: "mesh", width: "150 cm", stretch_width: 70, stretch_length: 50, recovery: 95 },
};
for (const button of document.querySelectorAll("[data-add-kind]")) {
  button.addEventListener("click", async () => {
    const kind = button.dataset.addKind;
    const name = kind === "shelf" ? document.getElementById("add-shelf").value : document.getElementById("add-name").value.trim();
    if (!name) return document.getElementById("add-name").focus();
    const { ok, data } = await send(`${base}/keep`, { changes: [[["cloth", name], kind === "shelf" ? name : START[kind]]] });
    wrong(ok ? null : data.faults);
    if (ok) location.reload();
  });
}
