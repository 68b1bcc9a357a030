"""The documents that are open in an editor, and what the last audit said of each."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import field
from datetime import date
from pathlib import Path

from riglint.findings import Finding, Where, audit, unread
from riglint.findings.library.referring import referred
from riglint.model.values.sources import OWN
from riglint.policy import DEFAULT, InForce, policy_from
from riglint.read.file_names import MARK
from riglint.read.library import inside, library_root, read_bytes
from riglint.read.looks import is_ours
from riglint.read.repository.report_paths import paths_start
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal
from riglint.views.audit.words import unfit

SETTING = frozenset({"policy", "known", "library"})
KIND = re.compile(r"^riglint[ \t]*:[ \t]*[\"']?(?P<kind>[a-z]+)/", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Judging:
    """What documents are judged by: all of it named in the call, nothing of it taken from their folders."""

    book: Rulebook
    force: InForce | None  # None takes what each library sets
    today: Callable[[], date]
    root: Path | None = None


@dataclass(frozen=True, slots=True)
class Audited:
    """What an audit of one document said, by the whole path of the file that each finding stands in."""

    text: str
    findings: Mapping[Path, tuple[Finding, ...]]
    force: InForce = DEFAULT  # what it was judged by


@dataclass(slots=True)
class OpenFiles:
    """All open documents by their whole path."""

    judging: Judging
    texts: dict[Path, str] = field(default_factory=dict)
    audits: dict[Path, Audited] = field(default_factory=dict)
    uris: dict[Path, str] = field(default_factory=dict)  # as the editor spells them

    def touched_by(self, file: Path) -> set[Path]:
        """Return the open documents whose audit rests on a file: itself, what refers to it, all of what it settles."""
        if _settles(file, self.text(file)):
            return {other for other in self.texts if inside(self.library(other), file)}
        rigs = {other for other, text in self.texts.items() if file in referred(as_bytes(text), other)}
        return rigs | ({file} & self.texts.keys())

    def text(self, file: Path) -> str:
        """Return the text of a file as the editor holds it, else as it is on the disk."""
        return self.texts[file] if file in self.texts else _on_disk(file)

    def uri(self, file: Path) -> str:
        """Return the address of a file, spelt as the editor spells it where it has opened the file."""
        return self.uris.get(file) or file.as_uri()

    def files(self) -> set[Path]:
        """Return every file that a finding stands in."""
        return {file for audited in self.audits.values() for file in audited.findings}

    def findings(self, file: Path) -> list[Finding]:
        """Return what the open documents have to say of one file, each thing once, at its gravest."""
        found: dict[tuple[object, ...], Finding] = {}
        for audited in self.audits.values():
            for one in audited.findings.get(file, ()):
                name = (one.rule, one.kind, one.at.line, one.at.column, one.message, one.accepted is None)
                if name not in found or found[name].signal < one.signal:
                    found[name] = one
        return list(found.values())

    def root(self, file: Path) -> Path:
        """Return the folder that the paths in a file's findings begin at."""
        return paths_start([library_root(file, self.judging.root)])

    def library(self, file: Path) -> Path:
        """Return the library that a file is in: what it may refer to is in there."""
        return library_root(file, self.judging.root)

    def audited(self, file: Path, texts: Mapping[Path, str]) -> Audited:
        """Audit one document as an editor holds it, with what is open of the files that it refers to."""
        text, force = texts[file], DEFAULT
        try:
            findings, force = self._findings(file, text, texts)
        except Exception as error:  # noqa: BLE001 - an editor would show an empty list, and that would look like a pass
            findings = [_stumbled(file, error)]
        root, by_file = self.root(file), dict[Path, list[Finding]]()
        for one in findings:
            by_file.setdefault(root / one.at.path, []).append(one)
        return Audited(text, {path: tuple(found) for path, found in by_file.items()}, force)

    def _findings(self, file: Path, text: str, texts: Mapping[Path, str]) -> tuple[list[Finding], InForce]:
        raw = as_bytes(text)
        if is_ours(raw) == "no":
            return [], DEFAULT
        needed = {file, *referred(raw, file)} & texts.keys()
        needed |= {path for path, other in texts.items() if _settles(path, other)}
        by, held = self.judging, {path: as_bytes(texts[path]) for path in needed}
        result = audit([file], by.book, by.today(), root=by.root, force=by.force, texts=held)
        findings = result.findings
        if any(one.kind == "policy" for one in result.files) and not findings:
            _, problems = policy_from(raw, file.as_posix(), by.book)
            findings = [unread(file.as_posix(), problem) for problem in problems]
        return [*(_unfit(file, sentence) for sentence in unfit(result)), *findings], result.force


def _settles(file: Path, text: str) -> bool:
    """Whether a file says by what a library is judged: its mark file, a policy, what it knows of."""
    return file.name == MARK or kind_said(text) in SETTING


def kind_said(text: str) -> str:
    """Return the kind that a text says it is at its head, without reading all of it; empty where it is not ours."""
    found = KIND.search(text.removeprefix("\ufeff"))
    return found["kind"] if found is not None else ""


def as_bytes(text: str) -> bytes:
    """Return the bytes of a text; half a character becomes what the reader then says is no text."""
    return text.encode("utf-8", "surrogatepass")


def _on_disk(file: Path) -> str:
    raw, _ = read_bytes(file)
    return (raw or b"").decode("utf-8", "replace")


def _unfit(file: Path, sentence: str) -> Finding:
    """Return what an audit says at its top, at the top of the file: an editor shows nothing but findings."""
    why = "An empty list in an editor looks like a rig that passed."
    do = "Turn these rules on again, or let somebody who knows them judge the rig."
    return Finding(
        "file/policy", Signal.DANGER, "fail", sentence, why, do, Where(file.as_posix(), 1, 1, ""), OWN
    )


def _stumbled(file: Path, error: Exception) -> Finding:
    message = (
        f"riglint could not audit this file ({type(error).__name__}: {error}), so nothing here is checked."
    )
    why = "A file that was not checked must not look like one that passed."
    do = "Do not rely on what the editor shows. Report the file and this sentence to whoever keeps riglint."
    at = Where(file.as_posix(), 1, 1, "")
    return Finding("file/readable", Signal.DANGER, "fail", message, why, do, at, OWN, crashed=True)
