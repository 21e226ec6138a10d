"""The local page: from key to paint, after a burst of moves, from the command to the first page, many asks at once."""

from __future__ import annotations

import http.client
import json
import re
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from bench.rows import NotMeasured, Row

_CHROMIUM = next((path for path in ("/usr/bin/chromium", "/usr/bin/chromium-browser") if Path(path).exists()), None)
_ARGUMENTS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
_TRIALS = 40
#: Counts from the key or the move to the frame after the drawing that answers it has changed.
_WATCH = """
() => {
  window.times = [];
  window.begun = null;
  for (const kind of ["keydown", "pointermove", "pointerup"])
    document.addEventListener(kind, (event) => { window.begun ??= event.timeStamp; }, true);
  new MutationObserver(() => {
    if (window.begun === null) return;
    const from = window.begun;
    window.begun = null;
    requestAnimationFrame(() => {
      const port = new MessageChannel();
      port.port1.onmessage = () => window.times.push(performance.now() - from);
      port.port2.postMessage(0);
    });
  }).observe(document.getElementById("drawing"), { childList: true });
}
"""
_BURST = """
async () => {
  const knob = document.querySelector('[data-key="waist"] circle:last-of-type');
  const box = knob.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const send = (kind, down) => knob.parentNode.dispatchEvent(new PointerEvent(kind, {
    bubbles: true, cancelable: true, pointerId: 1, clientX: x, clientY: y + down }));
  knob.parentNode.setPointerCapture = () => {};
  send("pointerdown", 0);
  for (let move = 1; move <= 120; move += 1) {
    send("pointermove", move / 3);
    await new Promise((go) => setTimeout(go, 1000 / 60));
  }
  const ended = performance.now();
  send("pointerup", 40);
  const root = document.getElementById("design");
  while (root.dataset.state !== "settled") await new Promise((go) => setTimeout(go, 1));
  await new Promise((go) => requestAnimationFrame(go));
  return performance.now() - ended;
}
"""


class _Served:
    """``galloon open`` in a process of its own, on a shelf of its own."""

    def __init__(self, shelf: Path) -> None:
        command = [sys.executable, "-m", "galloon", "open", "--no-browser", "--port", "0", "--shelf", str(shelf)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().split(" at ")[1].split(" ")[0].rstrip("/")
        self.host = self.address.removeprefix("http://")

    def ask(self, path: str, body: bytes | None = None, kind: str = "application/json", token: str = "") -> bytes:
        """The body of an answer."""
        line = http.client.HTTPConnection(self.host, timeout=60)
        headers = {"Content-Type": kind, "X-Galloon-Token": token}
        line.request("GET" if body is None else "POST", path, body, headers)
        answer = line.getresponse()
        told = answer.read()
        line.close()
        if answer.status >= 400:
            raise RuntimeError(f"{path}: {answer.status} {told[:200]!r}")
        return told

    def token(self) -> str:
        """What every change must carry."""
        found = re.search(rb'galloon-token" content="([^"]+)', self.ask("/"))
        assert found is not None
        return found.group(1).decode()

    def begin(self, name: str, changes: list[Any] | None = None) -> str:
        """A new design; the path of its pages."""
        token = self.token()
        form = urlencode({"token": token, "name": name}).encode()
        self.ask("/begin", form, "application/x-www-form-urlencoded")
        path = f"/design/{name}"
        if changes:
            self.ask(f"{path}/keep", json.dumps({"changes": changes}).encode(), token=token)
        return path


@contextmanager
def _served() -> Iterator[_Served]:
    with tempfile.TemporaryDirectory() as folder:
        page = _Served(Path(folder) / "shelf.sqlite")
        try:
            yield page
        finally:
            page.process.terminate()
            page.process.wait(10)


@contextmanager
def _table(changes: list[Any] | None = None) -> Iterator[Any]:
    """A table open in Chromium."""
    if _CHROMIUM is None:
        raise NotMeasured("needs Chromium")
    from playwright.sync_api import sync_playwright

    with _served() as page, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_CHROMIUM, args=_ARGUMENTS)
        window = browser.new_page(viewport={"width": 1360, "height": 900})
        window.goto(f"{page.address}{page.begin('table', changes)}/table", wait_until="load")
        window.wait_for_selector('#design[data-state="settled"]')
        yield window
        browser.close()


#: Three uses: scalloped legs front and back, and a trim at the waist.
_THREE = [
    [["cloth", "trim"], {"kind": "lace", "edges": "single scallop", "width": "3 cm", "scallop_pitch": "2 cm",
                         "scallop_depth": "0.5 cm", "stretch_length": 40, "stretch_width": 10}],
    [["panels", "front"], "heron"],
    [["lace", 2], {"use": "edge trim", "cloth": "trim", "panel": "both", "edge_on": "waist"}],
]  # fmt: skip


def _keys(changes: list[Any] | None = None) -> list[float]:
    with _table(changes) as window:
        window.locator('[data-key="waist"]').focus()
        for _ in range(6):
            window.keyboard.press("ArrowDown")
            window.wait_for_selector('#design[data-state="settled"]')
        window.evaluate(_WATCH)
        for trial in range(_TRIALS):
            window.keyboard.press("ArrowUp" if trial % 2 else "ArrowDown")
            while window.evaluate("window.times.length") <= trial:
                time.sleep(0.002)
            window.wait_for_selector('#design[data-state="settled"]')
            window.evaluate("(most) => { window.times.length = most; window.begun = null; }", trial + 1)
        return list(window.evaluate("window.times"))


def _burst() -> list[float]:
    with _table() as window:
        window.evaluate(_BURST)
        return [float(window.evaluate(_BURST)) for _ in range(5)]


def _first_page() -> list[float]:
    samples = []
    for _ in range(5):
        began = time.perf_counter()
        with _served() as page:
            page.ask("/")
            samples.append(time.perf_counter() - began)
    return samples


def _weight() -> list[float]:
    with _served() as page:
        path = page.begin("weight")
        told = page.ask(f"{path}/table")
        parts = {*re.findall(rb'(?:src|href)="(/static/[^"]+)"', told), b"/static/talk.js"}
        return [(len(told) + sum(len(page.ask(part.decode())) for part in parts)) / 1000.0]


def _fifty() -> list[float]:
    """Fifty at once from as many connections, each the newest move of its own browser; after a round to warm up."""
    with _served() as page:
        path, token = page.begin("fifty"), page.token()
        samples: list[float] = []

        def ask(number: int) -> None:
            body = json.dumps({"handle": "waist", "to": 40.0 + number / 5.0}).encode()
            began = time.perf_counter()
            page.ask(f"{path}/try", body, token=token)
            samples.append((time.perf_counter() - began) * 1000.0)

        for _ in range(3):
            samples.clear()
            jobs = [threading.Thread(target=ask, args=(number,)) for number in range(50)]
            for job in jobs:
                job.start()
            for job in jobs:
                job.join()
        return samples


def _in_ms(changes: list[Any] | None = None) -> Sequence[float]:
    return _keys(changes)


ROWS = [
    Row("table: key to paint", "demo, a waist moved by arrow keys in Chromium", 33.0, "ms", _in_ms),
    Row("table: key to paint, slow ones", "the same, 95 of 100", 50.0, "ms", _in_ms, "p95"),
    Row("table: three lace uses", "key to paint, 95 of 100", 80.0, "ms", lambda: _in_ms(_THREE), "p95"),
    Row("table: after a burst", "120 moves at 60 Hz, from letting go until kept and shown", 120.0, "ms", _burst),
    Row("page: first one", "from the command to the list of designs answered", 1.0, "s", _first_page),
    Row("page: its weight", "table with styles and scripts", 150.0, "kB", _weight),
    Row("page: 50 at once", "50 tries of one design in parallel", 500.0, "ms", _fifty, "p95"),
]
