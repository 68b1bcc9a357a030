"""From a read document to its model, or to every problem that stands in the way, each with its place."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from riglint.model import kinds
from riglint.model.fields import told
from riglint.model.gear import Shelf
from riglint.model.parts import TAGS
from riglint.model.rig import Rig
from riglint.model.spot import Spot
from riglint.read.problems import MOST_SUGGESTIONS, Problem, key_text, shown
from riglint.read.spelling import nearest
from riglint.read.yaml_text import MAX_PROBLEMS, Document

Key = tuple[str | int, ...]

MODELS: dict[str, type[Rig] | type[Spot] | type[Shelf]] = {"rig": Rig, "spot": Spot, "shelf": Shelf}
KINDS = ("rig", "spot", "shelf", "policy")

SCHEMA_KEY = "$schema"  # tells editors where the schema is; may precede the first key
BELOW_OTHERS = "The key riglint stands below other keys; it is expected as the first."
LIKE_A_KIND = 0.6  # share of letters in common; three letters leave no room for more
CHAINS = ("chain", "made_fast")
MOST_ROUNDS = 4  # of taking out what is wrong, until the rest can be looked at
MOST_LISTED = 24  # keys; longer lists help nobody
FEW, SHORT = 3, 40

# The table of kinds, the keys that all of them share, and the key that names the kind.
_TABLES = {
    "part": (kinds.PART, kinds.PART_SHARED, "part"),
    "gear": (kinds.GEAR, kinds.GEAR_SHARED, "kind"),
    "anchor": (kinds.ANCHOR, kinds.ANCHOR_SHARED, "kind"),
}


def kind_of(document: Document) -> tuple[str | None, Problem | None]:
    """Return the document's kind (`rig`, `spot` ...), or the problem with its first key."""
    said = document.data.get("riglint")
    if not isinstance(said, str):
        return None, _no_kind(document)
    first = next(key for key in document.data if key != SCHEMA_KEY)
    if first != "riglint":
        return None, _kind_problem(
            document, "riglint", BELOW_OTHERS, "Move this line to the top of the file."
        )
    kind, slash, version = said.partition("/")
    if kind in KINDS and version == "1":
        return kind, None
    guess = kind if kind in KINDS else nearest(kind, KINDS, likeness=LIKE_A_KIND)
    do = f"Write riglint: {guess}/1." if guess else f"Write riglint: and one of {_kinds()}."
    message = f"{shown(said)} is no kind of document that riglint reads."
    if kind in KINDS and slash and version:
        message = (
            f"{shown(said)} names version {shown(version)}; this riglint reads version 1 of a {kind} file."
        )
    elif kind in KINDS:
        message = f"{shown(said)} names no version; {kind}/1 is expected."
    return None, _kind_problem(document, "riglint", message, do)


def _kind_problem(document: Document, key: str, message: str, do: str) -> Problem:
    return Problem("file/kind", document.place((key,)), key, message, do)


def _no_kind(document: Document) -> Problem:
    if "riglint" in document.data:
        message = "The key riglint says nothing; the kind of the document is expected."
        return _kind_problem(document, "riglint", message, f"Write one of {_kinds()} after it.")
    first = next((key for key in document.data if key != SCHEMA_KEY), "")
    if nearest(first, ["riglint"]):
        message = f"The first key is {shown(first)}, so the file is not read; riglint was expected."
        return Problem("file/kind", document.key_places[(first,)], first, message, "Write riglint for it.")
    message = "The file does not say what it is: its first key is not riglint."
    return _kind_problem(document, "riglint", message, f"Begin it with riglint: and one of {_kinds()}.")


def _kinds() -> str:
    return ", ".join(f"{kind}/1" for kind in KINDS)


def load(document: Document, kind: str) -> tuple[Rig | Spot | Shelf | None, list[Problem]]:
    """Return the model of a document, or None and its problems in the order they stand, at most a hundred."""
    words = _Words(document, MODELS[kind], f"a {kind}")
    problems = list(islice(_kind_problems(words), MAX_PROBLEMS))
    model = _validated(words, problems)
    problems = [problem for problem in problems if problem.key not in words.meant]
    problems.sort(key=lambda problem: (problem.place, problem.key))
    if len(problems) > MAX_PROBLEMS:
        last = problems[MAX_PROBLEMS - 1]
        message = f"More than {MAX_PROBLEMS} problems stand in this file; the others are not shown."
        problems[MAX_PROBLEMS:] = [
            Problem(last.rule, last.place, last.key, message, "Put the first ones right.")
        ]
    return (None, problems) if problems else (model, [])


def what_is_left(document: Document, kind: str) -> tuple[Rig | Spot | Shelf | None, frozenset[str]]:
    """Return the model without the values that are wrong, and the top keys that lost some of theirs.

    It serves only to look for more problems: nothing in it may be judged. None, where too much is wrong.
    """
    data: Any = _copied(_own_keys(document))
    lost: set[str] = set()
    for _ in range(MOST_ROUNDS):
        try:
            return MODELS[kind].model_validate(data), frozenset(lost)
        except ValidationError as error:
            wrong = {
                _plain_key(detail)[: -1 if detail["type"] == "missing" else None] for detail in error.errors()
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
        if isinstance(data, dict) and step not in data:
            return None  # gone already, with what held it
        data = data[step]
    if isinstance(last, int):
        data[last] = {"part": "ring"}
    else:
        data.pop(last, None)
    return None


def _own_keys(document: Document) -> dict[str, Any]:
    return {key: value for key, value in document.data.items() if key != SCHEMA_KEY}


def _plain_key(detail: ErrorDetails) -> Key:
    return tuple(step for step in detail["loc"] if step not in TAGS)


@dataclass(slots=True)
class _Words:
    """Puts what is wrong with one document into sentences for a rigger."""

    document: Document
    model: type[BaseModel]
    called: str
    meant: set[str] = field(default_factory=set)  # missing keys that a misspelt one stands for
    suggestions_left: int = MOST_SUGGESTIONS

    def near(self, word: str, known: Iterable[str]) -> str | None:
        """Return the nearest known word; none after many, for a hostile file must not take minutes."""
        self.suggestions_left -= 1
        return nearest(word, known) if self.suggestions_left >= 0 else None

    def group(self, key: Key) -> str:
        """Return what holds a key, in words."""
        if len(key) == 1:
            return self.called
        name = next(step for step in reversed(key[:-1]) if isinstance(step, str))
        return f"an entry of {shown(name)}" if isinstance(key[-2], int) else shown(name)

    def told(self, detail: ErrorDetails) -> Problem:
        """Turn one validation error into a sentence."""
        key, kind = _plain_key(detail), detail["type"]
        context, value, place = detail.get("ctx", {}), detail["input"], self.document.place(key)
        if kind == "extra_forbidden":
            return self.unknown_key(key, self.group(key), _fields_at(self.model, key[:-1]))
        if kind == "missing":
            return self.missing(key, self.group(key))
        if kind == "literal_error":
            words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
            return self.unknown_word(key, value, words)
        if "sentence" in context:
            return Problem(kind, place, key_text(key), context["sentence"], context["do"])
        return Problem("file/value", place, key_text(key), *self.other(key, kind, value, context))

    def unknown_key(self, key: Key, group: str, known: Iterable[str], other: str = "") -> Problem:
        """Say which key is near, whose key it is, or which keys there are."""
        place = self.document.key_places.get(key, self.document.place(key))
        written, known = str(key[-1]), sorted(known)
        guess = self.near(written, known)
        if guess and (*key[:-1], guess) not in self.document.key_places:
            self.meant.add(key_text((*key[:-1], guess)))
        do = (
            f"Write {guess}, if that is meant."
            if guess
            else f"Take it out; {group} takes {', '.join(known)}."
        )
        if len(known) > MOST_LISTED and not guess:
            do = f"Take it out, or look up what {group} takes."
        belongs = f"; it belongs to {other}" if other and not guess else ""
        message = f"{shown(written)} is no key of {group}{belongs}."
        return Problem("file/key", place, key_text(key), message, do)

    def missing(self, key: Key, group: str) -> Problem:
        """Say what is missing and what belongs there."""
        if isinstance(key[-1], int):  # the second of a pair
            message = f"{shown(str(key[-2]))} has {key[-1]} of its two values."
            do = "Write two in brackets, such as [2 m, 2 m]."
            return Problem("file/value", self.document.place(key[:-1]), key_text(key[:-1]), message, do)
        about = _models_fields(_model_at(self.model, key[:-1])).get(key[-1], "")
        add = f"Add {key[-1]}: {about[:1].lower()}{about[1:]}" if about else f"Add {key[-1]}, with its value."
        message = f"'{key[-1]}' is missing; {group} needs it."
        return Problem("file/key", self.document.place(key[:-1]), key_text(key), message, add)

    def unknown_word(self, key: Key, value: object, words: list[str]) -> Problem:
        """Say which word is near and which there are."""
        guess = self.near(value, words) if isinstance(value, str) else None
        listed = ", ".join(words)
        do = (
            f"Write {guess}, if that is meant. The words are {listed}."
            if guess
            else f"Write one of {listed}."
        )
        message = f"{told(value)} is no word that {shown(_name(key))} takes."
        return Problem("file/value", self.document.place(key), key_text(key), message, do)

    def other(self, key: Key, kind: str, value: object, context: dict[str, Any]) -> tuple[str, str]:
        """Say what stands there and what was expected, and what to write."""
        if kind in {"model_type", "model_attributes_type", "dict_type"}:
            known = [] if kind == "dict_type" else _fields_at(self.model, key)
            such = f"{{{known[0]}: …}}" if known else "{name: …}"
            dash = " Or take the dash out." if value is None and isinstance(key[-1], int) else ""
            return (
                f"{told(value)} stands where keys with values are expected.",
                f"Write them, such as {such}.{dash}",
            )
        if kind in {"list_type", "tuple_type"}:
            do = f"Write it in brackets: [{value}]." if isinstance(value, str) and len(value) < SHORT else ""
            return f"{told(value)} stands where a list is expected.", do or "Write a list, or [] for none."
        if kind in {"too_short", "too_long"}:
            message = f"{shown(_name(key))} has {context.get('actual_length')} values where two are expected."
            return message, "Write two in brackets, such as [2 m, 2 m]."
        if kind == "greater_than_equal":
            return (
                f"{told(value)} is too small; {context.get('ge')} is the least.",
                f"Write {context.get('ge')} or more.",
            )
        return f"{told(value)} cannot be used here.", "See the format reference for what this key takes."


def _name(key: Key) -> str:
    """Return the nearest key that has a name."""
    return next((step for step in reversed(key) if isinstance(step, str)), "the list")


def _validated(words: _Words, problems: list[Problem]) -> Rig | Spot | Shelf | None:
    try:
        return words.model.model_validate(_own_keys(words.document))  # type: ignore[return-value]
    except ValidationError as error:
        known = {problem.key for problem in problems}
        details = error.errors(include_url=False)
        details.sort(key=lambda detail: words.document.place(_plain_key(detail)))
        for detail in details[: 2 * MAX_PROBLEMS]:  # half of them may have been told already
            problem = words.told(detail)
            if problem.key not in known:
                known.add(problem.key)
                problems.append(problem)
        return None


def _fields_at(model: type[BaseModel], key: Key) -> list[str]:
    """Return the keys that the group at `key` takes."""
    return list(_models_fields(_model_at(model, key)))


def _models_fields(model: type[BaseModel]) -> dict[str, str]:
    """Return the keys of a model and what each is about."""
    return {field.alias or name: field.description or "" for name, field in model.model_fields.items()}


def _model_at(model: type[BaseModel], key: Key) -> type[BaseModel]:
    """Return the model of the group at `key`, by following the models' own annotations."""
    current = model
    for step in key:
        if isinstance(step, int):
            continue
        named = {field.alias or name: field.annotation for name, field in current.model_fields.items()}
        inner = _models_in(named[step]) if step in named else [current]
        if inner:
            current = inner[-1]
    return current


def _models_in(annotation: object) -> list[type[BaseModel]]:
    if isinstance(annotation, type):
        return [annotation] if issubclass(annotation, BaseModel) else []
    return [found for part in getattr(annotation, "__args__", ()) for found in _models_in(part)]


def _kind_problems(words: _Words) -> Iterator[Problem]:
    """Check every part, piece of gear and anchor against the table of kinds."""
    data = words.document.data
    spots: list[tuple[Key, object]] = [(("anchors",), data), (("spot", "anchors"), data.get("spot"))]
    for key, spot in spots:
        if isinstance(spot, dict):
            yield from _check_named(words, key, spot.get("anchors"), "anchor")
    shelves: list[tuple[Key, object]] = [(("items",), data)]
    shelves += [(("shelf", n, "items"), one) for n, one in enumerate(_list(data.get("shelf")))]
    for key, shelf in shelves:
        if isinstance(shelf, dict):
            yield from _check_named(words, key, shelf.get("items"), "gear")
    yield from _check_parts(words, ("chain",), data.get("chain"))
    for n, backup in enumerate(_list(data.get("backups"))):
        if isinstance(backup, dict):
            yield from _check_parts(words, ("backups", n, "chain"), backup.get("chain"))


def _list(value: object) -> list[Any]:
    return value if isinstance(value, list) else []


def _check_named(words: _Words, key: Key, group: object, what: str) -> Iterator[Problem]:
    for name, entry in group.items() if isinstance(group, dict) else ():
        yield from _check_entry(words, (*key, name), entry, what)


def _check_parts(words: _Words, key: Key, parts: object) -> Iterator[Problem]:
    for n, entry in enumerate(_list(parts)):
        yield from _check_entry(words, (*key, n), entry, "part")
        if not isinstance(entry, dict):
            continue
        yield from _check_parts(words, (*key, n, "made_fast"), entry.get("made_fast"))
        for m, leg in enumerate(_list(entry.get("legs"))):
            if isinstance(leg, dict):
                yield from _check_parts(words, (*key, n, "legs", m, "chain"), leg.get("chain"))


def _check_entry(words: _Words, key: Key, entry: object, what: str) -> Iterator[Problem]:
    table, shared, word = _TABLES[what]
    named = entry.get(word) if isinstance(entry, dict) else None
    kind = table.get(named) if isinstance(named, str) else None
    if kind is None or not isinstance(entry, dict):
        return
    called = _a(str(named))
    for written in entry:
        if written not in kind.takes | shared:
            others = [_a(name) for name, other in table.items() if written in other.takes]
            other = " or ".join(others) if len(others) <= FEW else ""
            yield words.unknown_key((*key, written), called, kind.takes | shared, other)
    for wanted in sorted(kind.needs):
        if entry.get(wanted) is None:
            yield words.missing((*key, wanted), called)


def _a(kind: str) -> str:
    """Return a kind with its article, in words."""
    article = "" if kind == "bolts" else "an " if kind[0] in "aeiou" else "a "
    return article + kind.replace("_", " ")
