"""From a read document to its model, or to every problem that stands in the way, each with its place."""

from itertools import chain, islice
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from riglint.model.checked import checked
from riglint.model.decimal_commas import with_commas_joined
from riglint.model.documents.gear import Shelf
from riglint.model.documents.kind_check import kind_problems
from riglint.model.documents.own_names import own_name_problems
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.sentences import Key, Words, plain_key
from riglint.read.document import Document
from riglint.read.problems import Problem, shown
from riglint.read.spelling import nearest
from riglint.read.yaml_text import MAX_PROBLEMS

__all__ = ["KINDS", "MODELS", "Key", "kind_of", "load", "what_is_left"]

Model = TypeVar("Model", bound=BaseModel)

MODELS: dict[str, type[Rig] | type[Spot] | type[Shelf]] = {"rig": Rig, "spot": Spot, "shelf": Shelf}
KINDS = ("rig", "spot", "shelf", "policy", "library", "known")
UNJUDGED = ("policy", "library", "known")  # what sets how rigs are judged, and has no part in one

SCHEMA_KEY = "$schema"  # tells editors where the schema is; may precede the first key
BELOW_OTHERS = "The key riglint is below other keys. It must come first."
LIKE_A_KIND = 0.6  # share of letters in common; three letters leave no room for more
CHAINS = ("chain", "made_fast")
MOST_ROUNDS = 4  # of taking out what is wrong, until the rest can be looked at


def kind_of(document: Document) -> tuple[str | None, Problem | None]:
    """Return the document's kind (`rig`, `spot` ...), or the problem with its first key."""
    written = document.data.get("riglint")
    if not isinstance(written, str):
        return None, _no_kind(document)
    first = next(key for key in document.data if key != SCHEMA_KEY)
    if first != "riglint":
        return None, _kind_problem(
            document, "riglint", BELOW_OTHERS, "Move this line to the top of the file."
        )
    kind, slash, version = written.partition("/")
    if kind in KINDS and version == "1":
        return kind, None
    suggestion = kind if kind in KINDS else nearest(kind, KINDS, likeness=LIKE_A_KIND)
    do = f"Write riglint: {suggestion}/1." if suggestion else f"Write riglint: and one of {_kinds()}."
    message = f"{shown(written)} is not a kind of riglint document."
    if kind in KINDS and slash and version:
        message = (
            f"{shown(written)} names version {shown(version)}. This riglint reads version 1 of a {kind} file."
        )
    elif kind in KINDS:
        message = f"{shown(written)} names no version. Expected {kind}/1."
    return None, _kind_problem(document, "riglint", message, do, *([f"{suggestion}/1"] if suggestion else []))


def _kind_problem(document: Document, key: str, message: str, do: str, *instead: str) -> Problem:
    return Problem("file/kind", document.place((key,)), key, message, do, instead)


def _no_kind(document: Document) -> Problem:
    if "riglint" in document.data:
        message = "The key riglint is empty. Expected the kind of the document."
        return _kind_problem(document, "riglint", message, f"Write one of {_kinds()} after it.")
    first = next((key for key in document.data if key != SCHEMA_KEY), "")
    if nearest(first, ["riglint"]):
        message = f"The first key is {shown(first)}, so the file is not read. Expected riglint."
        place = document.key_places[(first,)]
        return Problem("file/kind", place, first, message, "Write riglint instead.", ("riglint",))
    message = "The file doesn't say what it is: its first key is not riglint."
    return _kind_problem(document, "riglint", message, f"Begin it with riglint: and one of {_kinds()}.")


def _kinds() -> str:
    return ", ".join(f"{kind}/1" for kind in KINDS)


def load(document: Document, kind: str) -> tuple[Rig | Spot | Shelf | None, list[Problem]]:
    """Return the model of a document, or None and its problems in the order they stand, at most a hundred."""
    return load_as(document, MODELS[kind], kind)


def load_as(document: Document, model: type[Model], kind: str) -> tuple[Model | None, list[Problem]]:
    """Do what `load` does for one model."""
    words = Words(document, model, f"a {kind}")
    problems = list(islice(chain(kind_problems(words), own_name_problems(words)), MAX_PROBLEMS))
    found = _validated(model, words, problems)
    problems = [problem for problem in problems if problem.key not in words.meant]
    problems = with_commas_joined(document, problems) if problems else []
    problems.sort(key=lambda problem: (problem.place, problem.key))
    if len(problems) > MAX_PROBLEMS:
        last = problems[MAX_PROBLEMS - 1]
        message = f"This file has more than {MAX_PROBLEMS} problems. The others are not shown."
        problems[MAX_PROBLEMS:] = [
            Problem(last.rule, last.place, last.key, message, "Correct the first ones.")
        ]
    return (None, problems) if problems else (found, [])


def what_is_left(document: Document, kind: str) -> tuple[Rig | Spot | Shelf | None, frozenset[str]]:
    """Return the model without the values that are wrong, and the top keys that lost some of theirs.

    It serves only to look for more problems: nothing in it may be judged. None, where too much is wrong.
    """
    data: Any = _copied(_own_keys(document))
    lost: set[str] = set()
    for _ in range(MOST_ROUNDS):
        try:
            return checked(MODELS[kind], data), frozenset(lost)
        except ValidationError as error:
            wrong = {
                plain_key(detail)[: -1 if detail["type"] == "missing" else None] for detail in error.errors()
            }
        if len(wrong) > MAX_PROBLEMS or () in wrong:
            break
        for key in wrong:
            lost.add(str(key[0]))
            _take_out(data, key)
    return None, frozenset(lost)


def _copied(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _copied(item) for key, item in value.items()}
    return [_copied(item) for item in value] if isinstance(value, list) else value


def _take_out(data: Any, key: Key) -> None:
    """Take one value out; a ring takes the place of a part, so that the others keep their numbers."""
    *way, last = key
    if isinstance(last, int) and way[-1] not in CHAINS:
        return _take_out(data, tuple(way))
    for step in way:
        if not _holds(data, step):
            return None  # gone already, with what held it
        data = data[step]
    if not _holds(data, last):
        return None
    if isinstance(last, int):
        data[last] = {"part": "ring"}
    else:
        del data[last]
    return None


def _holds(data: Any, step: str | int) -> bool:
    """Return whether a group has that key, or a list that many items."""
    if isinstance(data, dict):
        return step in data
    return isinstance(data, list) and isinstance(step, int) and step < len(data)


def _own_keys(document: Document) -> dict[str, Any]:
    return {key: value for key, value in document.data.items() if key != SCHEMA_KEY}


def _validated(model: type[Model], words: Words, problems: list[Problem]) -> Model | None:
    try:
        return checked(model, _own_keys(words.document))
    except ValidationError as error:
        known = {problem.key for problem in problems}
        details = error.errors(include_url=False)
        details.sort(key=lambda detail: words.document.place(plain_key(detail)))
        for detail in details[: 2 * MAX_PROBLEMS]:  # half of them may have been told already
            problem = words.problem_of(detail)
            if problem.key not in known:
                known.add(problem.key)
                problems.append(problem)
        return None
