"""Opens a built page on this machine's own address, and nowhere else."""

from __future__ import annotations

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from riglint.page.content_policy import content_policy

HERE = "127.0.0.1"


class Handler(SimpleHTTPRequestHandler):
    """Static files with the headers that a web space should send as well."""

    extensions_map = SimpleHTTPRequestHandler.extensions_map | {
        ".mjs": "text/javascript",
        ".js": "text/javascript",
        ".webmanifest": "application/manifest+json",
        ".gz": "application/octet-stream",
    }

    def end_headers(self) -> None:
        """Send what a browser must be told of every file."""
        self.send_header("Content-Security-Policy", content_policy())
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, *_: object) -> None:
        """Say nothing: what is opened is nobody's business."""


def server_of(folder: Path, port: int = 0, handler: type[Handler] = Handler) -> ThreadingHTTPServer:
    """Return a server of a folder on this machine's own address; port 0 takes a free one."""
    return ThreadingHTTPServer((HERE, port), partial(handler, directory=str(folder)))
