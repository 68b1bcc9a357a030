"""Programs of other people that read the schema files: installed once beside this file, run as they are."""

import json
import os
import shutil
import subprocess
from functools import cache
from pathlib import Path
from typing import Any

import pytest

NODE = Path(__file__).with_name("node")
MODULES = NODE / "node_modules"
INSTALL = (
    "ci", "--no-audit", "--no-fund", "--ignore-scripts", "--prefer-offline", "--fetch-retries=1",
    "--loglevel=error",
)  # fmt: skip
FLAG = ".installed"  # written when the whole installation has come to its end
LONGEST_S = 180


def node() -> str:
    """Return the path of node, once what the lock file names is installed; else skip the test and say why."""
    missing = _missing()
    if missing:
        pytest.skip(f"no other program has read the schemas: {missing}")
    return str(shutil.which("node"))


@cache
def _missing() -> str:
    """Install what the lock file names, if it is not there; return what went wrong, or nothing."""
    npm = shutil.which("npm")
    if shutil.which("node") is None or npm is None:
        return "node and npm are not installed"
    lock = (NODE / "package-lock.json").read_text(encoding="utf-8")
    flag = MODULES / FLAG
    if flag.exists() and flag.read_text(encoding="utf-8") == lock:
        return ""
    try:
        called = subprocess.run(
            [npm, *INSTALL],
            cwd=NODE,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            timeout=LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return f"npm ci took more than {LONGEST_S} s"
    if called.returncode:
        return f"npm ci failed: {' '.join(called.stderr.split())[:200]}"
    flag.write_text(lock, encoding="utf-8")
    return ""


def run_script(name: str, asked: object) -> Any:
    """Run a script of the node folder with JSON in and JSON out."""
    called = subprocess.run(
        [node(), name],
        cwd=NODE,
        input=json.dumps(asked),
        capture_output=True,
        encoding="utf-8",
        timeout=LONGEST_S,
        check=False,
    )
    assert called.returncode == 0, called.stderr
    return json.loads(called.stdout)


class LanguageServer:
    """A YAML language server over standard input and output, with one schema for all files."""

    def __init__(self, schema: Path) -> None:
        server = MODULES / "yaml-language-server" / "bin" / "yaml-language-server"
        self.process = subprocess.Popen(
            [node(), str(server), "--stdio"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "NODE_NO_WARNINGS": "1"},
        )
        self.number = 0
        self.ask(
            "initialize",
            {
                "processId": None,
                "rootUri": None,
                "capabilities": {
                    "textDocument": {
                        "completion": {"completionItem": {"documentationFormat": ["markdown"]}},
                        "hover": {"contentFormat": ["markdown"]},
                    }
                },
            },
        )
        self.settings = {
            "schemas": {schema.as_uri(): ["*.yaml"]},
            "schemaStore": {"enable": False},
            "validate": True,
            "completion": True,
            "hover": True,
        }
        self.tell("initialized", {})
        self.tell("workspace/didChangeConfiguration", {"settings": {}})

    def diagnostics(self, uri: str, text: str) -> list[dict[str, Any]]:
        """Open a file and return what the server says of it."""
        opened = {"uri": uri, "languageId": "yaml", "version": 1, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": opened})
        while True:
            said = self._read()
            if said.get("method") == "textDocument/publishDiagnostics" and said["params"]["uri"] == uri:
                found: list[dict[str, Any]] = said["params"]["diagnostics"]
                return found

    def at(self, method: str, uri: str, line: int, column: int) -> Any:
        """Return a completion or a hover at a place, counted from 0."""
        place = {"textDocument": {"uri": uri}, "position": {"line": line, "character": column}}
        return self.ask(f"textDocument/{method}", place)

    def ask(self, method: str, params: object) -> Any:
        """Send a request and return its result."""
        self.number += 1
        self._write({"id": self.number, "method": method, "params": params})
        while True:
            said = self._read()
            if said.get("id") == self.number and "method" not in said:
                assert "error" not in said, said
                return said["result"]

    def tell(self, method: str, params: object) -> None:
        """Send a message that has no answer."""
        self._write({"method": method, "params": params})

    def close(self) -> None:
        """End the server."""
        self.process.terminate()
        self.process.wait(timeout=10)
        for stream in (self.process.stdin, self.process.stdout):
            if stream is not None:
                stream.close()

    def _write(self, message: dict[str, object]) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self.process.stdin is not None
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.process.stdin.flush()

    def _read(self) -> dict[str, Any]:
        """Return the next message; a request of the server is answered with nothing first."""
        assert self.process.stdout is not None
        length = 0
        while line := self.process.stdout.readline().strip():
            name, _, value = line.partition(b":")
            length = int(value) if name.lower() == b"content-length" else length
        assert length, "the language server has ended"
        said: dict[str, Any] = json.loads(self.process.stdout.read(length))
        if "id" in said and "method" in said:
            self._write({"id": said["id"], "result": self._answer(said)})
        return said

    def _answer(self, asked: dict[str, Any]) -> object:
        """Return the settings that the server asks for; to all else, nothing."""
        if asked["method"] != "workspace/configuration":
            return None
        sections = [item.get("section") for item in asked["params"]["items"]]
        return [self.settings if section == "yaml" else {} for section in sections]
