"""From a read document to its model, or to every problem that stands in the way, each with its place."""

import re
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from riglint.model import kinds
from riglint.model.fields import shown
from riglint.model.gear import Shelf
from riglint.model.parts import TAGS
from riglint.model.rig import Rig
from riglint.model.spot import Spot
from riglint.read.problems import Place, Problem, key_text
from riglint.read.spelling import nearest
from riglint.read.yaml_text import Document

Key = tuple[str | int, ...]
Model = TypeVar("Model", bound=BaseModel)

MODELS: dict[str, type[Rig] | type[Spot] | type[Shelf]] = {"rig": Rig, "spot": Spot, "shelf": Shelf}
KINDS = ("rig", "spot", "shelf", "policy")

# An inline document needs no first key; the fields that name kinds, by the group they stand in.
_NAMED_BY = {"part": kinds.PART, "gear": kinds.GEAR, "anchor": kinds.ANCHOR}


def kind_of(document: Document) -> tuple[str | None, Problem | None]:
    """Return the document's kind (`rig`, `spot` ...), or the problem with its first key."""
    said = document.data.get("riglint")
    place = document.place(("riglint",))
    expected = ", ".join(f"{kind}/1" for kind in KINDS)
    if not isinstance(said, str):
        message = "The file does not say what it is: the first key 'riglint' is missing or empty."
        return None, Problem("file/kind", place, "riglint", message, f"Begin with riglint: and one of {expected}.")
    kind, _, version = said.partition("/")
    if kind in KINDS and version == "1":
        return kind, None
    guess = kind if kind in KINDS else nearest(kind, KINDS)
    do = f"Write riglint: {guess}/1." if guess else f"Write one of {expected}."
    return None, Problem("file/kind", place, "riglint", f"'{said}' is no kind of document that riglint reads.", do)


def load(document: Document, kind: str) -> tuple[Rig | Spot | Shelf | None, list[Problem]]:
    """Return the model of a document, or None and all of its problems in the order they stand."""
    problems = list(_kind_problems(document))
    model = _validated(MODELS[kind], document, problems)
    problems.sort(key=lambda problem: (problem.place, problem.key))
    return (None, problems) if problems else (model, [])


def _validated(model: type[Model], document: Document, problems: list[Problem]) -> Model | None:
    try:
        return model.model_validate(document.data)
    except ValidationError as error:
        told = {problem.key for problem in problems}
        for detail in error.errors(include_url=False):
            problem = _told_in_words(detail, model, document)
            if problem.key not in told:
                told.add(problem.key)
                problems.append(problem)
        return None


def _told_in_words(detail: ErrorDetails, model: type[BaseModel], document: Document) -> Problem:
    """Turn one validation error into a sentence for a rigger."""
    key: Key = tuple(step for step in detail["loc"] if step not in TAGS)
    kind, context, value = detail["type"], detail.get("ctx", {}), detail["input"]
    place = document.place(key)
    if kind == "extra_forbidden":
        place = document.key_places.get(key, place)
        return _unknown_key(key, place, _fields_at(model, key[:-1]))
    if kind == "missing":
        where = key_text(key[:-1]) or "the document"
        message = f"'{key[-1]}' is missing from {where}."
        return Problem("file/key", document.place(key[:-1]), key_text(key), message, f"Add {key[-1]}: …")
    if kind == "literal_error":
        words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
        return _unknown_word(key, place, value, words)
    if "sentence" in context:
        return Problem(kind, place, key_text(key), context["sentence"], context["do"])
    return Problem("file/value", place, key_text(key), *_other(kind, value, context))


def _other(kind: str, value: object, context: dict[str, Any]) -> tuple[str, str]:
    read = "nothing" if value is None else shown(value)
    if kind in {"model_type", "model_attributes_type", "dict_type"}:
        return f"{read} stands where a group of keys is expected.", "Write the keys below, each with its value."
    if kind in {"list_type", "tuple_type"}:
        return f"{read} stands where a list is expected.", "Write a list, such as [a, b], or [] for none."
    if kind in {"too_short", "too_long"}:
        most = context.get("max_length", context.get("min_length"))
        return f"The list has {context.get('actual_length')} entries.", f"Write {most}."
    if kind == "greater_than_equal":
        return f"{shown(value)} is too small.", f"Write {context.get('ge')} or more."
    return f"{read} cannot be used here.", "See the format reference for what this key takes."


def _unknown_key(key: Key, place: Place, known: list[str]) -> Problem:
    guess = nearest(str(key[-1]), known)
    message = f"'{key[-1]}' is no key of {_group(key)}."
    do = f"Write {guess}, if that is meant." if guess else f"It takes {', '.join(sorted(known))}."
    return Problem("file/key", place, key_text(key), message, do)


def _group(key: Key) -> str:
    return key_text(key[:-1]) or "the document"


def _unknown_word(key: Key, place: Place, value: object, words: list[str]) -> Problem:
    guess = nearest(str(value), words) if isinstance(value, str) else None
    listed = ", ".join(words)
    do = f"Write {guess}, if that is meant; it takes {listed}." if guess else f"Write one of {listed}."
    message = f"{shown(value) if value is not None else 'Nothing'} is no word that '{key[-1]}' takes."
    return Problem("file/value", place, key_text(key), message, do)


def _fields_at(model: type[BaseModel], key: Key) -> list[str]:
    """Return the keys that the group at `key` takes, by following the models' own annotations."""
    current: type[BaseModel] = model
    for step in key:
        if isinstance(step, int):
            continue
        named = {field.alias or name: field.annotation for name, field in current.model_fields.items()}
        inner = _models_in(named[step]) if step in named else [current]
        if inner:
            current = inner[-1]
    return [field.alias or name for name, field in current.model_fields.items()]


def _models_in(annotation: object) -> list[type[BaseModel]]:
    if isinstance(annotation, type):
        return [annotation] if issubclass(annotation, BaseModel) else []
    return [found for part in getattr(annotation, "__args__", ()) for found in _models_in(part)]


def _kind_problems(document: Document) -> list[Problem]:
    """Check every part, piece of gear and anchor against the table of kinds."""
    problems: list[Problem] = []
    data = document.data
    spots = [(("anchors",), data), (("spot", "anchors"), data.get("spot"))]
    for key, holder in spots:
        if isinstance(holder, dict):
            _check_named(document, key, holder.get("anchors"), "anchor", problems)
    shelves: list[tuple[Key, object]] = [(("items",), data)]
    listed = data.get("shelf")
    shelves += [(("shelf", n, "items"), one) for n, one in enumerate(listed if isinstance(listed, list) else [])]
    for key, holder in shelves:
        if isinstance(holder, dict):
            _check_named(document, key, holder.get("items"), "gear", problems)
    _check_parts(document, ("chain",), data.get("chain"), problems)
    backups = data.get("backups")
    for n, backup in enumerate(backups if isinstance(backups, list) else []):
        if isinstance(backup, dict):
            _check_parts(document, ("backups", n, "chain"), backup.get("chain"), problems)
    return problems


def _check_named(document: Document, key: Key, group: object, what: str, problems: list[Problem]) -> None:
    for name, entry in group.items() if isinstance(group, dict) else ():
        _check_entry(document, (*key, name), entry, what, problems)


def _check_parts(document: Document, key: Key, parts: object, problems: list[Problem]) -> None:
    for n, entry in enumerate(parts if isinstance(parts, list) else []):
        _check_entry(document, (*key, n), entry, "part", problems)
        if not isinstance(entry, dict):
            continue
        _check_parts(document, (*key, n, "made_fast"), entry.get("made_fast"), problems)
        legs = entry.get("legs")
        for m, leg in enumerate(legs if isinstance(legs, list) else []):
            if isinstance(leg, dict):
                _check_parts(document, (*key, n, "legs", m, "chain"), leg.get("chain"), problems)


def _check_entry(document: Document, key: Key, entry: object, what: str, problems: list[Problem]) -> None:
    if not isinstance(entry, dict):
        return
    word, shared = ("part", kinds.PART_SHARED) if what == "part" else ("kind", kinds.GEAR_SHARED)
    shared = kinds.ANCHOR_SHARED if what == "anchor" else shared
    named = entry.get(word)
    kind = _NAMED_BY[what].get(named) if isinstance(named, str) else None
    if kind is None:
        return
    article = "an" if str(named)[0] in "aeiou" else "a"
    called = f"{article} {str(named).replace('_', ' ')}"
    known = kind.takes | shared
    for written in entry:
        if written in known:
            continue
        guess = nearest(written, known)
        do = f"Write {guess}, if that is meant." if guess else f"It takes {', '.join(sorted(known))}."
        place = document.key_places.get((*key, written), document.place(key))
        message = f"'{written}' is no key of {called}, at {key_text(key)}."
        problems.append(Problem("file/key", place, key_text((*key, written)), message, do))
    for wanted in sorted(kind.needs):
        if entry.get(wanted) is None:
            message = f"'{wanted}' is missing from {key_text(key)}; {called} needs it."
            problems.append(Problem("file/key", document.place(key), key_text((*key, wanted)), message, f"Add {wanted}: …"))
