// A lace measured from a picture: it is shown straight with handles on what was found; corrected, it is kept.
import { base, send, sendFile, wrong } from "/static/talk.js";
import { level } from "/static/level.js";

const words = JSON.parse(document.getElementById("read-words").textContent);
const form = document.getElementById("read");
const [seen, found, scale] = [".seen", ".found", ".scale"].map((one) => form.querySelector(one));
const line = (tag, text, keys = {}) => Object.assign(document.createElement(tag), { textContent: text, ...keys });
const bytes = (text, type) => URL.createObjectURL(new Blob([Uint8Array.from(atob(text), (char) => char.charCodeAt(0))], { type }));
const FIGURES = ["width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat"];

// What was said of the lace that was kept stands there after the page has come again.
if (sessionStorage.getItem("kept")) seen.append(line("p", sessionStorage.getItem("kept")));
sessionStorage.removeItem("kept");

document.getElementById("picture").addEventListener("change", () => {
  scale.hidden = true;
  document.getElementById("dpi").value = "";
  document.getElementById("card").checked = false;
  seen.replaceChildren();
  found.hidden = true;
});

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const file = document.getElementById("picture").files[0];
  if (!file) return;
  seen.replaceChildren(line("p", "…"));
  found.hidden = true;
  const [dpi, card] = [document.getElementById("dpi").value.trim(), document.getElementById("card").checked];
  const { ok, data } = await sendFile(`/read?dpi=${card ? "" : encodeURIComponent(dpi)}&card=${card ? 1 : 0}`, file);
  seen.replaceChildren(...(ok ? [] : data.faults || []).map((one) => line("p", one.text, { className: "wrong" })));
  scale.hidden = !ok && scale.hidden;
  if (!ok) return;
  scale.querySelector("p").textContent = data.ask || data.scale;
  if (data.ask) document.getElementById("dpi").focus();
  else show(data, file);
});

function show(data, file) {
  const { lace } = data;
  const fields = {};
  const rows = FIGURES.filter((key) => lace[key] || key === "width").map((key) => {
    const row = line("div", "", { className: "field" });
    const value = lace[key] ? lace[key].value.toFixed(2) : "";
    fields[key] = Object.assign(document.createElement("input"), { id: `seen-${key}`, value, inputMode: "decimal" });
    const box = line("span", "", { className: "with" });
    box.append(fields[key], line("span", "mm", { className: "unit" }));
    row.append(line("label", words[`cloth.${key}`], { htmlFor: `seen-${key}` }), box);
    if (!lace[key]) return row;
    const [low, high] = [lace[key].low.toFixed(2), lace[key].high.toFixed(2)];
    const how = line("p", words["read.between"].replace("{low}", low).replace("{high}", high), { id: `between-${key}`, className: "how" });
    fields[key].setAttribute("aria-describedby", how.id);
    row.append(how);
    return row;
  });
  const grid = line("div", "", { className: "grid" });
  grid.append(...rows);
  const said = lace.warnings.map((one) => line("p", one.says, { className: "odd" }));
  const whole = document.createElement("details");
  whole.append(line("summary", words["read.whole"]), Object.assign(document.createElement("img"), { src: bytes(data.picture, "image/png"), alt: "" }));
  const straight = data.level && level({ ...data.level, src: bytes(data.level.image, "image/jpeg") }, lace, words, (key, value) => {
    if (fields[key]) fields[key].value = value.toFixed(2);
  });
  const name = Object.assign(document.createElement("input"), { id: "seen-name", value: file.name.replace(/\.[^.]*$/, "").slice(0, 40) });
  const called = line("div", "", { className: "field" });
  called.append(line("label", words["read.name"], { htmlFor: "seen-name" }), name);
  const take = line("button", words["read.keep"], { type: "button" });
  take.addEventListener("click", async () => {
    const body = { changes: [[["cloth", name.value.trim()], tableOf(lace, fields)]], reading: data.reading, box: straight?.box() };
    const kept = await send(`${base}/lace`, body);
    wrong(kept.ok ? null : kept.data.faults);
    if (!kept.ok) return;
    sessionStorage.setItem("kept", kept.data.says);
    location.reload();
  });
  const shown = straight ? [line("p", words["read.help"], { className: "how" }), straight.element] : [];
  found.replaceChildren(...said, ...shown, grid, called, take, whole);
  found.hidden = false;
  straight?.place();
}

function tableOf(lace, fields) {
  const table = { kind: "lace", edges: lace.edges, mirror_across: lace.mirror_across === true };
  for (const [key, field] of Object.entries(fields)) {
    const text = field.value.trim().replace(",", ".");
    if (text) table[key] = `${text} mm`;
  }
  if (lace.edges === "double scallop") table.second_edge = lace.second_edge || "other";
  if (lace.half_turn) table.half_turn = true;
  if (lace.openness) table.openness = Number(lace.openness.value.toFixed(2));
  return table;
}
