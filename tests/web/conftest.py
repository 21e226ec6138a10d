"""The page as it is really served: a process of its own on loopback, and Chromium to use it with."""

import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from tests.web.talk import Page

CHROMIUM = next((path for path in ("/usr/bin/chromium", "/usr/bin/chromium-browser") if Path(path).exists()), None)
#: How long a condition may take on a machine with much else to do, ms.
PATIENCE = 120_000
ARGUMENTS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
]  # fmt: skip


def start(shelf, port=0):
    """``galloon open`` on a free port; the process and its address."""
    command = [sys.executable, "-m", "galloon", "open", "--no-browser", "--port", str(port), "--shelf", str(shelf)]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    line = process.stdout.readline()
    return process, line.split(" at ")[1].split(" ")[0].rstrip("/")


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """A page with a fresh shelf."""
    process, address = start(tmp_path_factory.mktemp("shelf") / "shelf.sqlite")
    yield Page(address)
    process.terminate()
    process.wait(60)


@pytest.fixture(scope="session")
def chromium():
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture
def window(chromium):
    """A window; every fault of a script and every request elsewhere fails the test."""
    context = chromium.new_context(viewport={"width": 1360, "height": 900}, accept_downloads=True)
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    faults, asked = [], set()
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    page.on("request", lambda request: asked.add(request.url.split("/")[2]) if "://" in request.url else None)
    page.expected = []
    yield page
    page.evaluate("1")  # comes back after everything the page has reported
    unexpected = [fault for fault in faults if not any(word in fault for word in page.expected)]
    assert unexpected == []
    assert {host.split(":")[0] for host in asked} <= {"127.0.0.1"}
    context.close()
