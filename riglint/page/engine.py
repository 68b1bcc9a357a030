"""What the page asks of riglint: each call takes and gives plain data, as JSON, and none of them ends in a traceback.

It runs where the page's worker runs, over the files of `LIBRARY`. Reports come from the same functions as the command
line's; card, sheet and gauge are whole calls of the command line.
"""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import field
from datetime import date
from pathlib import Path
from typing import Any

from riglint import __version__
from riglint.cli import main
from riglint.cli.call.arguments import LeavingCall
from riglint.cli.call.stopping import CALL_WRONG, NOT_DONE
from riglint.findings import audit
from riglint.page.asking import Dialogue
from riglint.page.completing import words_here
from riglint.page.editing import belongs_here
from riglint.page.telling import answer_data, file_data
from riglint.page.unpacking import unpacked
from riglint.policy import InForce, load_policy
from riglint.records import dataclass
from riglint.reports.audit.json_report import audit_json
from riglint.rulebook import Rulebook, load_rulebook
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.verdict import verdicts
from riglint.views.audit.words import CAUTION_TEXT

LIBRARY = Path("/library")


@dataclass(slots=True)
class Engine:
    """The rulebook, loaded once, and the calls that the page makes."""

    library: Path = LIBRARY
    book: Rulebook = field(default_factory=load_rulebook)

    def call(self, name: str, arguments: str) -> str:
        """Run one call; what goes wrong comes back as a sentence under `wrong`."""
        calls: dict[str, Callable[..., Any]] = {
            "about": self.about,
            "audit": self.audit,
            "command": self.command,
            "here": self.here,
            "words": self.words,
            "question": self.question,
            "unpack": self.unpack,
        }
        try:
            return json.dumps(calls[name](**json.loads(arguments)))
        except Exception as error:  # noqa: BLE001 - the page must say so, and nothing may look like a pass
            return json.dumps({"wrong": f"riglint could not do this ({type(error).__name__}: {error})."})

    def about(self) -> dict[str, Any]:
        """Return which riglint this is."""
        return {
            "version": __version__,
            "rules": len(self.book.rules),
            "seal": self.book.seal,
            "caution": CAUTION_TEXT,
        }

    def audit(self, paths: Sequence[str], on: str, policy: str | None = None) -> dict[str, Any]:
        """Audit files of the library; return the report as JSON text, and what the page shows of each file."""
        force, told = self._force(policy)
        if told:
            return {"wrong": "\n".join(told)}
        result = audit(
            [self.library / path for path in paths], self.book, date.fromisoformat(on), force=force
        )
        shown = for_a_reader(result)
        as_found = {one.path: one for one in result.files}
        files = [file_data(shown, one, verdict, as_found[one.path]) for one, verdict in verdicts(shown)]
        return {"report": audit_json(result), "answer": answer_data(shown), "files": files}

    def _force(self, policy: str | None) -> tuple[InForce | None, list[str]]:
        if policy is None:
            return None, []
        force, problems = load_policy(self.library / policy, self.book)
        return force, [problem.in_one_row(policy) for problem in problems]

    def command(self, arguments: Sequence[str]) -> dict[str, Any]:
        """Run the command line as it is; return what it prints and its exit status."""
        out, err = _stream(), _stream()
        with redirect_stdout(out), redirect_stderr(err):
            try:
                status = main(arguments, self.book)
            except LeavingCall as leaving:
                status = leaving.code if isinstance(leaving.code, int) else CALL_WRONG
            except Exception as error:  # noqa: BLE001 - as the command line says it
                err.write(f"riglint could not do its work: {type(error).__name__}: {error}\n")
                status = NOT_DONE
        return {"status": status, "out": _written(out), "err": _written(err)}

    def here(self, text: str, line: int, column: int) -> str:
        """Return what belongs at a place of a text, in words; empty where that is not known."""
        return belongs_here(text, line, column)

    def words(self, text: str, line: int, column: int) -> list[dict[str, str]]:
        """Return the keys, units and names that could stand at a place of a text."""
        return words_here(self.library, text, line, column)

    def question(
        self, title: str, typed: Sequence[str], gear_lists: Sequence[str], on: str
    ) -> dict[str, Any]:
        """Return the question after those answered so far, or the text of the rig."""
        return Dialogue(self.library, self.book, date.fromisoformat(on), title, gear_lists).next_question(
            typed
        )

    def unpack(self, archive: str) -> dict[str, Any]:
        """Unpack a zip that lies in the page's memory; return its files as text."""
        return unpacked(Path(archive))


def _stream() -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(), encoding="utf-8", errors="backslashreplace", newline="\n")


def _written(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()
