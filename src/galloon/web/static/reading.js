// A lace measured from a picture: what was found is drawn over it, can be corrected, and is taken as a cloth.
import { base, send, sendFile, wrong } from "/static/talk.js";

const form = document.getElementById("read");
const seen = form.querySelector(".seen");
const line = (tag, text, keys = {}) => Object.assign(document.createElement(tag), { textContent: text, ...keys });

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const file = document.getElementById("picture").files[0];
  if (!file) return;
  seen.replaceChildren(line("p", "…"));
  const dpi = document.getElementById("dpi").value.trim();
  const { ok, data } = await sendFile(`/read?dpi=${encodeURIComponent(dpi)}`, file);
  if (!ok) {
    seen.replaceChildren(...(data.faults || []).map((one) => line("p", one.text, { className: "wrong" })));
    return;
  }
  const bytes = Uint8Array.from(atob(data.picture), (char) => char.charCodeAt(0));
  const picture = Object.assign(document.createElement("img"), { src: URL.createObjectURL(new Blob([bytes], { type: "image/png" })), alt: "" });
  const fields = {};
  const rows = ["width", "scallop_pitch", "scallop_depth", "repeat"].filter((key) => data.lace[key]).map((key) => {
    const row = document.createElement("p");
    row.className = "field";
    const one = data.lace[key];
    fields[key] = Object.assign(document.createElement("input"), { id: `seen-${key}`, value: one.value.toFixed(1) });
    row.append(line("label", `${key.replace("_", " ")}, mm (${one.low.toFixed(1)} – ${one.high.toFixed(1)})`, { htmlFor: `seen-${key}` }), fields[key]);
    return row;
  });
  const said = data.lace.warnings.map((one) => line("p", one.says, { className: "odd", lang: "en" }));
  const name = Object.assign(document.createElement("input"), { id: "seen-name", value: file.name.replace(/\.[^.]*$/, "").slice(0, 40) });
  const take = line("button", seen.dataset.take, { type: "button" });
  take.addEventListener("click", async () => {
    const table = { kind: "lace", edges: data.lace.edges, mirror_across: data.lace.mirror_across === true };
    for (const [key, field] of Object.entries(fields)) table[key] = `${field.value} mm`;
    if (data.lace.edges === "double scallop") table.second_edge = data.lace.second_edge || "other";
    if (data.lace.openness) table.openness = Number(data.lace.openness.value.toFixed(2));
    const kept = await send(`${base}/keep`, { changes: [[["cloth", name.value.trim()], { ...table, stretch_length: 40, stretch_width: 15 }]] });
    wrong(kept.ok ? null : kept.data.faults);
    if (kept.ok) location.reload();
  });
  const called = document.createElement("p");
  called.className = "field";
  called.append(line("label", document.querySelector('label[for="add-name"]').textContent, { htmlFor: "seen-name" }), name);
  seen.replaceChildren(picture, ...said, ...rows, called, take);
});
