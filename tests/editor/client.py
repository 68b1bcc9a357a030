"""An editor as the server sees it: JSON-RPC 2.0 over pipes, after the Language Server Protocol 3.17."""

import json
import os
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

CHECKOUT = Path(__file__).parents[2]
DAY = ("--on", "2026-05-02")
LONGEST_S = 300


class Editor:
    """Starts the server, opens and changes documents, and keeps the newest diagnostics of each."""

    def __init__(self, *options: str, encodings: tuple[str, ...] = ()) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "riglint", "serve-editor", *DAY, *options],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(CHECKOUT)},
        )
        self.guard = threading.Timer(LONGEST_S, self.process.kill)  # a server that hangs ends the test
        self.guard.start()
        self.number, self.version = 0, 0
        self.messages: list[tuple[str, str]] = []  # that the server has for the person, by how they are shown
        self.diagnostics: dict[str, list[dict[str, Any]]] = {}
        general = {"positionEncodings": list(encodings)} if encodings else {}
        asked = {"processId": None, "rootUri": None, "capabilities": {"general": general}}
        self.capabilities = self.ask("initialize", asked)["capabilities"]
        self.tell("initialized", {})

    def send(self, message: dict[str, Any]) -> None:
        self.send_bytes(json.dumps({"jsonrpc": "2.0", **message}).encode())

    def send_bytes(self, body: bytes) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
        self.process.stdin.flush()

    def read(self) -> dict[str, Any]:
        """Return the next message; anything else on standard output is a failure."""
        assert self.process.stdout is not None
        length = 0
        while (line := self.process.stdout.readline()).strip():
            name, _, value = line.decode().partition(":")
            assert name in {"Content-Length", "Content-Type"}, line
            length = int(value) if name == "Content-Length" else length
        assert length, "the server is gone"
        message: dict[str, Any] = json.loads(self.process.stdout.read(length))
        if message.get("method") == "textDocument/publishDiagnostics":
            self.diagnostics[message["params"]["uri"]] = message["params"]["diagnostics"]
        if message.get("method") in {"window/logMessage", "window/showMessage"}:
            self.messages.append((message["method"], message["params"]["message"]))
        return message

    def ask(self, method: str, given: Any) -> Any:
        self.number += 1
        self.send({"id": self.number, "method": method, "params": given})
        while True:
            answer = self.read()
            if answer.get("id") == self.number and "method" not in answer:
                assert "error" not in answer, answer
                return answer["result"]

    def tell(self, method: str, given: Any) -> None:
        self.send({"method": method, "params": given})

    def told_of(self, uri: str) -> list[dict[str, Any]]:
        """Wait for the next diagnostics of a document."""
        while True:
            message = self.read()
            if message.get("method") == "textDocument/publishDiagnostics" and message["params"]["uri"] == uri:
                return self.diagnostics[uri]

    def open(self, file: Path, text: str | None = None) -> list[dict[str, Any]]:
        text = file.read_bytes().decode() if text is None else text
        self.version += 1
        document = {"uri": file.as_uri(), "languageId": "yaml", "version": self.version, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": document})
        return self.told_of(file.as_uri())

    def change(self, file: Path, text: str, wait_for: Path | None = None) -> list[dict[str, Any]]:
        self.version += 1
        document = {"uri": file.as_uri(), "version": self.version}
        self.tell("textDocument/didChange", {"textDocument": document, "contentChanges": [{"text": text}]})
        return self.told_of((wait_for or file).as_uri())

    def close(self, file: Path) -> list[dict[str, Any]]:
        self.tell("textDocument/didClose", {"textDocument": {"uri": file.as_uri()}})
        return self.told_of(file.as_uri())

    def hover(self, file: Path, line: int, column: int) -> str:
        """Return what is shown at a line and column counted from 0."""
        where = {"textDocument": {"uri": file.as_uri()}, "position": {"line": line, "character": column}}
        found = self.ask("textDocument/hover", where)
        return str(found["contents"]["value"]) if found else ""

    def offered(self, file: Path, line: int, column: int) -> list[dict[str, Any]]:
        """Return what is offered at a line and column counted from 0, in its order."""
        where = {"textDocument": {"uri": file.as_uri()}, "position": {"line": line, "character": column}}
        found = self.ask("textDocument/completion", where)
        return sorted(found["items"], key=lambda one: str(one["sortText"])) if found else []

    def actions(self, file: Path, line: int) -> list[dict[str, Any]]:
        place = {"line": line, "character": 0}
        given = {
            "textDocument": {"uri": file.as_uri()},
            "range": {"start": place, "end": place},
            "context": {"diagnostics": []},
        }
        return list(self.ask("textDocument/codeAction", given))

    def leave(self) -> tuple[int, str]:
        """End the conversation as the protocol asks; return exit status and what was complained of."""
        self.ask("shutdown", None)
        self.tell("exit", None)
        return self.ended()

    def ended(self) -> tuple[int, str]:
        out, err = self.process.communicate(timeout=LONGEST_S)
        self.guard.cancel()
        assert out == b""
        return self.process.returncode, err.decode()


def changed(text: str, edits: list[dict[str, Any]]) -> str:
    """Return a text with edits made as an editor makes them: places in UTF-16 units, the last edit first."""
    for edit in sorted(edits, key=lambda one: str(one["range"]["start"]), reverse=True):
        start, end = (offset(text, edit["range"][side]) for side in ("start", "end"))
        text = text[:start] + edit["newText"] + text[end:]
    return text


def offset(text: str, place: dict[str, int]) -> int:
    """Return how many characters stand before a place."""
    lines = text.split("\n")
    before = lines[place["line"]].encode("utf-16-le")[: 2 * place["character"]].decode("utf-16-le")
    return sum(len(line) + 1 for line in lines[: place["line"]]) + len(before)
