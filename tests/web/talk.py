"""Plain requests to the page, for what no browser would send."""

import http.client
import json
import re
from urllib.parse import quote, urlencode


class Page:
    """The served page at an address."""

    def __init__(self, address):
        self.address = address
        self.host = address.removeprefix("http://")

    def ask(self, method, path, body=None, headers=None, *, host=None):
        """Status, headers and body of one request."""
        line = http.client.HTTPConnection(self.host, timeout=120)
        line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
        given = {"Host": host or self.host, **(headers or {})}
        if body is not None:
            given.setdefault("Content-Length", str(len(body)))
        for key, value in given.items():
            line.putheader(key, value)
        line.endheaders()
        if body is not None:
            line.send(body)
        answer = line.getresponse()
        found = answer.status, dict(answer.getheaders()), answer.read()
        line.close()
        return found

    def token(self):
        return re.search(rb'galloon-token" content="([^"]+)', self.ask("GET", "/")[2]).group(1).decode()

    def post(self, path, data, **headers):
        """JSON with the page's token; status and data."""
        sent = {"Content-Type": "application/json", "X-Galloon-Token": self.token(), **headers}
        status, _, body = self.ask("POST", path, json.dumps(data).encode(), sent)
        return status, json.loads(body) if body[:1] in (b"{", b"[") else body.decode()

    def begin(self, name):
        """A new design; the path of its pages."""
        body = urlencode({"token": self.token(), "name": name}).encode()
        status, *_ = self.ask("POST", "/begin", body, {"Content-Type": "application/x-www-form-urlencoded"})
        assert status == 303
        return f"/design/{quote(name.replace('%', '%25').replace('/', '%2F'), safe='')}"
