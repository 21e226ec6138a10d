// Speaks with the program: one request at a time for what moves, always the newest; the token goes with each.
let token = document.querySelector('meta[name="galloon-token"]').content;
const root = document.getElementById("design");
export const base = root ? root.dataset.base : "";
const lost = document.querySelector(".lost");

// What was asked and is not yet answered and shown; while there is any, the page is busy, else settled.
let open = 0;
let waiters = [];
function mark(by) {
  open += by;
  if (root) root.dataset.state = open > 0 ? "busy" : "settled";
  if (open === 0) for (const go of waiters.splice(0)) go();
}
export function begin() {
  mark(1);
  return () => mark(-1);
}
export async function during(work) {
  const end = begin();
  try {
    return await work();
  } finally {
    end();
  }
}
export const settled = () => (open === 0 ? Promise.resolve() : new Promise((go) => waiters.push(go)));
mark(0);

// The next page must show what was just changed: a link waits until it is kept.
document.addEventListener("click", async (event) => {
  const link = event.target.closest("a[href]");
  if (!link || open === 0 || event.ctrlKey || event.metaKey || event.shiftKey || link.hash) return;
  event.preventDefault();
  await settled();
  location.assign(link.href);
});

export async function send(path, body, { leaving = false } = {}) {
  let answer;
  try {
    answer = await fetch(path, {
      method: "POST",
      headers: { "content-type": "application/json", "x-galloon-token": token },
      body: JSON.stringify(body),
      keepalive: leaving,
    });
  } catch (error) {
    lost.hidden = false;
    throw error;
  }
  lost.hidden = true;
  const isJson = (answer.headers.get("content-type") || "").includes("json");
  const data = isJson ? await answer.json() : { faults: [{ key: "", text: await answer.text() }] };
  return { ok: answer.ok, status: answer.status, data };
}

const pause = (time) => new Promise((go) => setTimeout(go, time));

// For what must not be lost: where the program is not running, waits until it runs again and sends it then.
export async function sendSurely(path, body) {
  for (;;) {
    try {
      const answer = await send(path, body);
      if (answer.status !== 403 || (await reached()) !== "anew") return answer;
    } catch {
      while (!(await reached())) await pause(700);
    }
  }
}

// Whether the program runs; started anew it gives out a token of its own.
async function reached() {
  try {
    const page = await (await fetch(location.href)).text();
    const found = new DOMParser().parseFromString(page, "text/html").querySelector('meta[name="galloon-token"]');
    if (!found) return "";
    const how = found.content === token ? "still" : "anew";
    token = found.content;
    lost.hidden = true;
    return how;
  } catch {
    return "";
  }
}

export async function sendFile(path, file) {
  const answer = await fetch(path, { method: "POST", headers: { "x-galloon-token": token }, body: file });
  const isJson = (answer.headers.get("content-type") || "").includes("json");
  return { ok: answer.ok, data: isJson ? await answer.json() : { faults: [{ key: "", text: await answer.text() }] } };
}

// Of many asks only the newest waits; the rest are dropped unsent. `drop` forgets the one that waits.
export function newestWins(work) {
  let waiting = null;
  let busy = false;
  async function ask(what) {
    waiting = what;
    if (busy) return;
    busy = true;
    try {
      await during(async () => {
        while (waiting !== null) {
          const now = waiting;
          waiting = null;
          await work(now);
        }
      });
    } finally {
      busy = false;
    }
  }
  ask.drop = () => {
    waiting = null;
  };
  return ask;
}

export function wrong(faults, title = "") {
  const box = root.querySelector(".wrong");
  if (title) box.querySelector("strong").textContent = title;
  const list = box.querySelector("ul");
  list.replaceChildren(...(faults || []).map((one) => Object.assign(document.createElement("li"), { textContent: one.text })));
  box.hidden = !faults || faults.length === 0;
}

export function saying(saving) {
  const line = document.querySelector(".kept span");
  if (line) line.textContent = saving ? root.dataset.saving : root.dataset.saved;
}

export function listen(path, told) {
  const source = new EventSource(path);
  for (const kind of ["progress", "plan", "idea", "wrong"]) {
    source.addEventListener(kind, (event) => told(kind, JSON.parse(event.data)));
  }
  source.addEventListener("end", () => {
    source.close();
    told("end", null);
  });
  source.addEventListener("error", () => {
    source.close();
    told("end", null);
  });
  return () => {
    source.close();
    told("end", null);
  };
}
