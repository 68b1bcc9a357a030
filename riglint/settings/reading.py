"""Reads the documents that settings stand in, or every problem with them; nothing is taken from one that is broken."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from pydantic import BaseModel

from riglint.model.load import kind_of, load_as
from riglint.model.reference_path import WrongPath, wrong_path
from riglint.read.decoding import MAX_BYTES
from riglint.read.document import Document
from riglint.read.file_names import MARK, YAML
from riglint.read.library import inside, is_folder, read_bytes, real
from riglint.read.looks import only_comments
from riglint.read.problems import Place, Problem, shown
from riglint.read.yaml_text import read_yaml
from riglint.records import dataclass

Form = TypeVar("Form", bound=BaseModel)
NO_TEXTS: Mapping[Path, bytes] = MappingProxyType({})
# What people look for in a mark file and must not find there: each would let a library judge itself by less.
NEVER = {
    "stop_at": "The call alone says where it stops: --stop-at.",
    "house_rules": "House rules are programs, so only a call can name them: --house-rules.",
    "rules": "A policy turns rules off, each with a reason. House rules stand in a call: --house-rules.",
    "accepted": "Accept findings in the rig that has them.",
}


@dataclass(frozen=True, slots=True)
class Read:
    """The text of a document of settings, and what is wrong with it."""

    raw: bytes | None
    problems: tuple[Problem, ...] = ()


def read_mark(root: Path, texts: Mapping[Path, bytes] = NO_TEXTS) -> Read | None:
    """Return the text of a library's mark file; None where it has none, or a folder of that name."""
    mark = root / MARK
    held = texts.get(real(mark))
    if held is not None:
        return Read(held)
    if not os.path.lexists(mark) or is_folder(mark):
        return None
    if not inside(root, mark):
        message = f"The link {shown(MARK)} leads outside the library, so its settings are not read."
        do = "Put the file itself into the library."
        return Read(None, (Problem("file/readable", Place(1, 1), "", message, do),))
    raw, problems = read_bytes(mark)
    return Read(raw, tuple(problems))


def sets_nothing(raw: bytes) -> bool:
    """Whether a mark file holds nothing but comments."""
    return len(raw) <= MAX_BYTES and only_comments(raw)


def understood(
    raw: bytes, path: str, model: type[Form], kind: str
) -> tuple[Document | None, Form | None, list[Problem]]:
    """Return a document and its model, or every problem with it."""
    document, problems = read_yaml(raw, path)
    if document is None:
        return None, None, [_of_kind(one, kind) for one in problems]
    found, wrong = kind_of(document)
    if found != kind:
        article = "an empty file or a" if kind == "library" else "a"
        message = f"This is a {found} document. Expected {article} {kind} document."
        other = Problem(
            "file/kind", document.place(("riglint",)), "riglint", message, f"Begin it with riglint: {kind}/1."
        )
        return document, None, [*problems, wrong or other]
    form, more = load_as(document, model, kind)
    return document, None if problems else form, [*problems, *map(_never, more)]


def _of_kind(problem: Problem, kind: str) -> Problem:
    """Return a problem of any document as one of this kind: what to write names it."""
    return replace(problem, do=problem.do.replace("riglint: rig/1", f"riglint: {kind}/1"))


def _never(problem: Problem) -> Problem:
    because = NEVER.get(problem.key)
    if because is None or problem.rule != "file/key":
        return problem
    message = f"{shown(problem.key)} is nothing that a library can set."
    return Problem("file/key", problem.place, problem.key, message, f"Take it out. {because}")


def referred(document: Document, key: str, written: str, kind: str, root: Path) -> Problem | None:
    """Return what is wrong with a file that a mark file names; None where it can be read."""
    target = root / written
    wrong = wrong_path(written, target, kind, root)
    if wrong is None and target.suffix.lower() not in YAML:
        message = f"The name {shown(target.name)} does not end in .yaml."
        wrong = WrongPath(message, "Call it .yaml, as other documents.")
    if wrong is None:
        return None
    return Problem("file/reference", document.place((key,)), key, wrong.message, wrong.do, wrong.meant)
