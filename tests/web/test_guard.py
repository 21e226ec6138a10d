"""What does not come from the page itself, or is too much, is refused, and the page goes on serving."""

import json
import socket
import threading

import pytest


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "localhost.evil.example:80", ""])
def test_a_foreign_host_is_refused(served, host):
    assert served.ask("GET", "/", host=host or " ")[0] in (400, 421)


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:1"])
def test_a_foreign_origin_is_refused(served, origin):
    assert served.ask("GET", "/", headers={"Origin": origin})[0] == 403


def test_another_site_may_not_even_look(served):
    assert served.ask("GET", "/", headers={"Sec-Fetch-Site": "cross-site"})[0] == 403


def test_a_change_without_the_token_is_refused(served):
    path = served.begin("Without a token")
    body = json.dumps({"changes": [[["title"], "Changed"]]}).encode()
    for headers in ({}, {"X-Galloon-Token": "x" * 32}):
        assert served.ask("POST", f"{path}/keep", body, {"Content-Type": "application/json", **headers})[0] == 403
    assert b"Changed" not in served.ask("GET", f"{path}/brief.toml")[2]


def test_every_answer_forbids_what_it_does_not_need(served):
    for path in ("/", "/static/page.css", "/nowhere"):
        _, headers, _ = served.ask("GET", path)
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"


def test_a_hundred_megabytes_are_refused_before_they_are_read(served):
    status, *_ = served.ask("POST", "/begin", b"", {"Content-Length": str(100 * 1024 * 1024)})
    assert status == 413
    assert served.ask("GET", "/")[0] == 200


def test_a_body_that_grows_without_end_is_refused(served):
    path = served.begin("Growing")
    with socket.create_connection(served.host.split(":"), timeout=20) as line:
        head = f"POST {path}/keep HTTP/1.1\r\nHost: {served.host}\r\nX-Galloon-Token: {served.token()}\r\n"
        line.sendall(f"{head}Transfer-Encoding: chunked\r\n\r\n".encode())
        try:
            for _ in range(300):
                line.sendall(b"1000\r\n" + b"x" * 0x1000 + b"\r\n")
        except OSError:
            return  # hung up on: as good as an answer
        assert b" 413 " in line.recv(64)


@pytest.mark.parametrize(
    "body",
    [b"[" * 100_000, b"{", b"[]", b'{"changes": 3}', b'{"changes": [[[], 1]]}', b'{"changes": [[["a", -1], 1]]}',
     b'{"changes": [[["style"], {"a": {"b": {"c": {"d": {"e": {"f": {"g": 1}}}}}}}]]}',
     b'{"handle": ["waist"], "to": 1}', b'{"handle": "waist", "to": "far"}', b'{"handle": "slide-99", "to": 1}'],
)  # fmt: skip
def test_odd_bodies_are_refused_or_change_nothing(served, body):
    path = served.begin(f"Odd {abs(hash(body))}")
    before = served.ask("GET", f"{path}/brief.toml")[2]
    headers = {"Content-Type": "application/json", "X-Galloon-Token": served.token()}
    status, _, answer = served.ask("POST", f"{path}/keep", body, headers)
    assert status in (200, 400, 422), answer
    assert served.ask("GET", f"{path}/brief.toml")[2] == before


@pytest.mark.parametrize("path", ["/design/..%2f..%2fetc/passwd", "/static/../app.py", "/static/%2e%2e/app.py",
                                  "/design/x/files/a4/..%2fbrief.toml", "/design/x/files/a9/pattern.pdf"])  # fmt: skip
def test_paths_lead_nowhere_else(served, path):
    assert served.ask("GET", path)[0] in (400, 404)


def test_a_name_with_markup_is_only_ever_text(served):
    name = '"><script>alert(1)</script>'
    path = served.begin(name)
    for step in ("", "/measure", "/cloth", "/table", "/sewing", "/take"):
        _, _, body = served.ask("GET", path + step if step else "/")
        assert b"<script>alert" not in body
    assert served.post(f"{path}/keep", {"changes": [[["title"], "</title><img src=x>"]]})[0] in (200, 422)
    assert b"<img src=x>" not in served.ask("GET", f"{path}/table")[2]


def test_a_language_never_leads_to_another_site(served):
    for back in ("//evil.example", "https://evil.example", "/\\evil.example"):
        body = f"token={served.token()}&language=de&back={back}".encode()
        _, headers, _ = served.ask("POST", "/language", body, {"Content-Type": "application/x-www-form-urlencoded"})
        assert headers["location"] == "/"


def test_slow_clients_do_not_keep_others_waiting(served):
    lines = [socket.create_connection(served.host.split(":"), timeout=20) for _ in range(60)]
    for line in lines:
        line.sendall(b"GET / HTTP/1.1\r\nHost: ")
    assert served.ask("GET", "/")[0] == 200
    for line in lines:
        line.sendall(b"x")  # still open: nobody had to hang up for the answer to come
        line.close()


def test_fifty_at_once_are_all_answered(served):
    path, found = served.begin("Fifty"), []

    def ask(number):
        found.append(served.post(f"{path}/try", {"handle": "waist", "to": 40.0 + number})[0])

    jobs = [threading.Thread(target=ask, args=(number,)) for number in range(50)]
    for job in jobs:
        job.start()
    for job in jobs:
        job.join(120)
    assert found == [200] * 50


def test_the_body_of_an_answer_does_not_wait_for_an_acknowledgement():
    """The event loop sends small packets at once only on a socket whose protocol is named."""
    from galloon.web.serve import bound

    with bound("127.0.0.1", 0) as sock:
        assert sock.proto == socket.IPPROTO_TCP


def test_deep_json_is_refused_at_once(served):
    path = served.begin("Deep")
    headers = {"Content-Type": "application/json", "X-Galloon-Token": served.token()}
    deep = b'{"changes": [[["title"], ' + b'{"a": ' * 10_000 + b"1" + b"}" * 10_000 + b"]]}"
    assert served.ask("POST", f"{path}/keep", deep, headers)[0] == 400
    assert served.ask("GET", f"{path}/brief.toml")[0] == 200


@pytest.mark.parametrize(
    "file", ["..%2f..%2fpattern.pdf", "pattern.pdf%00.svg", "%2e%2e%2fbrief.toml", "brief.toml", ".."]
)
def test_downloads_are_of_known_names_only(served, file):
    path = served.begin(f"Tricks {file}")
    assert served.ask("GET", f"{path}/files/a4/{file}")[0] in (400, 404)


def test_a_picture_over_its_bound_is_refused(served):
    headers = {"X-Galloon-Token": served.token(), "Content-Length": str(41 * 1024 * 1024)}
    assert served.ask("POST", "/read", b"", headers)[0] == 413
    assert served.ask("GET", "/")[0] == 200


@pytest.mark.parametrize("rename", [3, ["heron"], ["heron", 4], ["heron", "x" * 100], [["heron"], "x"]])
def test_odd_renamings_are_refused(served, rename):
    path = served.begin(f"Odd name {rename!r:.20}")
    assert served.post(f"{path}/keep", {"rename": rename})[0] == 400
