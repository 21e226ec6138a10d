"""Starts the page on loopback and opens the browser."""

from __future__ import annotations

import socket
import threading
import webbrowser
from pathlib import Path
from typing import Final

import uvicorn

from galloon.errors import CannotWrite
from galloon.web.app import build_app

LOOPBACK: Final = "127.0.0.1"


def bound(host: str, port: int) -> socket.socket:
    """A listening socket; port 0 takes any that is free. Raises CannotWrite where it cannot be had.

    Its protocol is named: only then does the event loop send small packets at once, without which the body of every
    answer waits some 40 ms for the browser's delayed acknowledgement of the headers.
    """
    sock = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        sock.bind((host, port))
    except OSError as error:
        sock.close()
        raise CannotWrite(f"port {port}", f"{error.strerror}; try --port 0 for any free one") from error
    sock.listen(128)
    return sock


def serve(
    shelf: Path | None, *, port: int, browser: bool, network: str | None = None, password: str | None = None
) -> None:
    """Serves until interrupted. ``network`` is an address of this machine to listen on instead of loopback."""
    host = network or LOOPBACK
    sock = bound(host, port)
    port = sock.getsockname()[1]
    names = [host] if network else [LOOPBACK, "localhost"]
    app = build_app(shelf, hosts=[f"{name}:{port}" for name in names], password=password)
    config = uvicorn.Config(
        app, log_level="error", access_log=False, lifespan="off", timeout_keep_alive=15, limit_concurrency=256,
        h11_max_incomplete_event_size=32768, server_header=False, timeout_graceful_shutdown=2,
    )  # fmt: skip
    address = f"http://{host}:{port}/"
    print(f"galloon is open at {address} (Ctrl-C ends it)", flush=True)
    if browser:
        threading.Timer(0.3, webbrowser.open, [address]).start()
    uvicorn.Server(config).run(sockets=[sock])
