// The finish of each edge, chosen by its kind and width; a motif's outline from an SVG file.
import { base, during, saying, send, sendSurely, wrong } from "/static/talk.js";

async function keep(changes) {
  saying(true);
  const { ok, data } = await sendSurely(`${base}/keep`, { changes });
  saying(false);
  wrong(data.faults, data.title);
  return ok;
}

for (const edge of document.querySelectorAll("[data-zone]")) {
  const [kind, width] = [edge.querySelector("select"), edge.querySelector("input")];
  const chosen = () => kind.selectedOptions[0];
  const taken = async () => {
    const widths = chosen().dataset.widths;
    const wide = width.value.trim().replace(",", ".");
    const said = widths ? `${kind.value} ${wide} mm` : kind.value;
    const changes = [[["finish", edge.dataset.zone], said || null]];
    if (chosen().dataset.shelf !== undefined) changes.unshift([["elastic", kind.value], kind.value]);
    const ok = await during(() => keep(changes));
    for (const field of [kind, width]) field.setAttribute("aria-invalid", String(!ok));
  };
  kind.addEventListener("change", () => {
    const widths = chosen().dataset.widths?.split(" ");
    width.parentElement.hidden = !widths;
    if (widths && !(Number(width.value) >= Number(widths[0]) && Number(width.value) <= Number(widths[2]))) width.value = widths[1].replace(/\.0$/, "");
    taken();
  });
  width.addEventListener("change", taken);
}

const form = document.getElementById("motif");
form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const file = document.getElementById("motif-file").files[0];
  if (!file) return document.getElementById("motif-file").focus();
  const [panel, cloth] = ["motif-panel", "motif-cloth"].map((one) => document.getElementById(one).value);
  await during(async () => {
    const { ok, data } = await send(`${base}/motif`, { svg: await file.text(), panel, cloth });
    wrong(ok ? null : data.faults, data.title);
    if (ok) location.reload();
  });
});
