"""A web server for one folder: compresses as hosts do, keeps count, fails on request."""

from __future__ import annotations

import functools
import gzip
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

COMPRESSED = {".js", ".css", ".html", ".json", ".svg"}


@dataclass
class Served:
    """The server's address; what it was asked for; which paths (by their end) it breaks or cannot find; what it sends
    with every answer."""

    url: str
    asked: list[str] = field(default_factory=list)
    missing: set[str] = field(default_factory=set)
    broken: set[str] = field(default_factory=set)
    headers: dict[str, str] = field(default_factory=dict)

    def asked_for(self, part: str) -> list[str]:
        return [path for path in self.asked if part in path]


class Handler(SimpleHTTPRequestHandler):
    """Answers from the folder; see :class:`Served`."""

    protocol_version = "HTTP/1.1"

    def __init__(self, *args, served: Served, **kwargs):
        self.served = served
        super().__init__(*args, **kwargs)

    def do_GET(self):
        path = self.path.split("?")[0]
        self.served.asked.append(path)
        file = Path(self.translate_path(self.path))
        if file.is_dir():
            file /= "index.html"
        if not file.is_file() or any(path.endswith(end) for end in self.served.missing):
            self.send_error(404)
            return
        body = b"nothing to hear" if any(path.endswith(end) for end in self.served.broken) else file.read_bytes()
        self.send_response(200)
        if file.suffix in COMPRESSED and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = compressed(body)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Length", str(len(body)))
        for name, value in self.served.headers.items():
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *args):
        pass


# Every test asks for the same scripts.
@functools.lru_cache(maxsize=1024)
def compressed(body: bytes) -> bytes:
    return gzip.compress(body, 9)


@contextmanager
def serving(root: Path) -> Iterator[Served]:
    served = Served("")
    handler = functools.partial(Handler, directory=str(root), served=served)
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    served.url = f"http://127.0.0.1:{server.server_port}/"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield served
    finally:
        server.shutdown()
        server.server_close()
