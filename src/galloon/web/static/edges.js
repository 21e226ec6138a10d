// The finish of each edge, chosen by its kind and width; a motif's outline from an SVG file.
import { svg } from "/static/svg.js";
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
const [file, panel, cloth] = ["motif-file", "motif-panel", "motif-cloth"].map((one) => document.getElementById(one));

function lay(outline) {
  return during(async () => {
    const { ok, data } = await send(`${base}/motif`, { ...(await outline()), panel: panel.value, cloth: cloth.value });
    wrong(ok ? null : data.faults, data.title);
    if (ok) location.reload();
  });
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  if (!file.files[0]) return file.focus();
  lay(async () => ({ svg: await file.files[0].text() }));
});

const lift = form.querySelector("[data-lift]");
if (lift) {
  const [shown, says] = [form.querySelector(".lifted"), form.querySelector("[role=status]")];
  cloth.addEventListener("change", () => shown.replaceChildren());
  lift.addEventListener("click", () => during(async () => {
    const { ok, data } = await send(`${base}/outlines`, { cloth: cloth.value });
    wrong(ok ? null : data.faults, data.title);
    says.textContent = data.says || "";
    shown.replaceChildren(...(data.outlines || []).map((one, place) => {
      const button = Object.assign(document.createElement("button"), { type: "button", className: "quiet" });
      const drawn = svg("svg", { viewBox: one.box, "aria-hidden": "true" });
      drawn.append(svg("path", { d: one.path }));
      button.append(drawn, document.createTextNode(one.says));
      button.setAttribute("aria-label", `${shown.dataset.word}: ${one.says}`);
      button.addEventListener("click", () => lay(() => ({ lifted: place })));
      return button;
    }));
  }));
}
