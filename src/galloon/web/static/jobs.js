// Long jobs: told step by step, stopped when asked.
import { base, listen, send } from "/static/talk.js";

function run(box, path, told) {
  const [start, stop, bar, line] = ["[data-longer], [data-start]", "[data-stop]", "progress", "[role=status]"].map((one) => box.querySelector(one));
  start.hidden = true;
  stop.hidden = bar.hidden = false;
  const end = listen(path, (kind, data) => {
    if (kind === "progress") {
      bar.value = data.share;
      line.textContent = data.says;
    } else if (kind === "wrong") line.textContent = data;
    else if (kind === "end") {
      stop.hidden = bar.hidden = true;
      start.hidden = false;
    }
    told(kind, data);
  });
  stop.disabled = false;
  stop.onclick = () => {
    stop.disabled = true;
    send(`${base}/stop`, {}).catch(end);
  };
}

for (const plan of document.querySelectorAll("[data-plan]")) {
  const start = plan.querySelector("[data-longer]");
  if (!start) continue;
  start.addEventListener("click", () => run(plan, `${base}/longer?cloth=${encodeURIComponent(plan.dataset.plan)}`, (kind, data) => {
    if (kind !== "plan") return;
    plan.querySelector("[data-drawing]").innerHTML = data.drawing;
    plan.querySelector("[data-length]").textContent = data.length;
    plan.querySelector("[data-bound]").textContent = data.bound;
  }));
}

const look = document.querySelector("[data-look]");
if (look) {
  const list = document.querySelector(".ideas");
  look.querySelector("[data-start]").addEventListener("click", () => {
    list.replaceChildren();
    run(look, `${base}/look`, (kind, data) => {
      if (kind === "idea") list.append(idea(data, list.dataset.take));
      if (kind === "end" && !list.children.length) look.querySelector("[role=status]").textContent = list.dataset.none;
    });
  });
}

function idea(data, word) {
  const item = document.createElement("li");
  const picture = Object.assign(document.createElement("img"), { alt: data.title, src: URL.createObjectURL(new Blob([data.drawing], { type: "image/svg+xml" })) });
  const title = Object.assign(document.createElement("h2"), { textContent: data.title });
  const says = Object.assign(document.createElement("p"), { textContent: data.says });
  const take = Object.assign(document.createElement("button"), { type: "button", textContent: word });
  take.addEventListener("click", async () => {
    const { ok, data: answer } = await send(`${base}/adopt`, { number: data.number });
    if (ok) location.assign(answer.address);
  });
  item.append(picture, title, says, take);
  return item;
}
