// Speaks with the program: one request at a time for what moves, always the newest; the token goes with each.
const token = document.querySelector('meta[name="galloon-token"]').content;
const root = document.getElementById("design");
export const base = root ? root.dataset.base : "";
const lost = document.querySelector(".lost");

export async function send(path, body) {
  let answer;
  try {
    answer = await fetch(path, {
      method: "POST",
      headers: { "content-type": "application/json", "x-galloon-token": token },
      body: JSON.stringify(body),
    });
  } catch (error) {
    lost.hidden = false;
    throw error;
  }
  lost.hidden = true;
  const isJson = (answer.headers.get("content-type") || "").includes("json");
  const data = isJson ? await answer.json() : { faults: [{ key: "", text: await answer.text() }] };
  return { ok: answer.ok, data };
}

export async function sendFile(path, file) {
  const answer = await fetch(path, { method: "POST", headers: { "x-galloon-token": token }, body: file });
  const isJson = (answer.headers.get("content-type") || "").includes("json");
  return { ok: answer.ok, data: isJson ? await answer.json() : { faults: [{ key: "", text: await answer.text() }] } };
}

// Of many asks only the newest waits; the rest are dropped unsent.
export function newestWins(work) {
  let waiting = null;
  let busy = false;
  return async function ask(what) {
    waiting = what;
    if (busy) return;
    busy = true;
    try {
      while (waiting !== null) {
        const now = waiting;
        waiting = null;
        await work(now);
      }
    } finally {
      busy = false;
    }
  };
}

export function wrong(faults) {
  const box = root.querySelector(".wrong");
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
