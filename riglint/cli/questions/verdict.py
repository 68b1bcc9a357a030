"""What an answer does to the verdict, judged by the real rules on the rig as far as it is known."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from datetime import date
from pathlib import Path

from riglint.asking import AnswerError, Answers, GearList, rig_document, rig_text
from riglint.findings.finding import Finding
from riglint.findings.judging import judge
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.policy import InForce
from riglint.read.library import library_root
from riglint.read.repository.report_paths import paths_start
from riglint.records import dataclass
from riglint.rulebook import Rulebook


@dataclass(slots=True)
class Verdicts:
    """The rig that the answers make, checked and judged as it grows."""

    file: Path
    root: Path | None
    book: Rulebook
    force: InForce
    on: date
    title: str
    gear: GearList
    last_shown: dict[tuple[str, str], Finding] = field(default_factory=dict)

    def check(self, answers: Answers) -> RigFile | None:
        """Return the rig of these answers, read as its file will be; None where nothing can be told of it yet.

        Raises:
            AnswerError: it cannot; the sentence is that of the file format.
        """
        top = library_root(self.file, self.root)
        library = Library(top, start=paths_start([top]))
        library.take(self.file, rig_text(rig_document(self.title, answers, self.gear)).encode())
        rig, problems, broken = resolve(library, self.file)
        for one in (*problems, *(problem for other in broken for problem in other.problems)):
            raise AnswerError(f"{one.message} {one.do}")
        return rig

    def moved(self, rig: RigFile) -> Iterator[str]:
        """Yield what is wrong with a rig now and was not before, and what is not wrong any more."""
        judged = judge(rig, self.book, self.on, self.force, with_remedies=False)
        found = {(one.rule, one.at.part or one.at.key): one for one in judged.findings if one.kind == "fail"}
        for key in self.last_shown.keys() - found.keys():
            yield f"no longer  {self.last_shown[key].message}"
        for key, one in found.items():
            if key not in self.last_shown or self.last_shown[key].signal != one.signal:
                yield f"{one.signal.name:<10} {one.message}"
        self.last_shown = found
