"""What is wrong with a document, in sentences: what was read, what was expected, what to write."""

import re
from collections.abc import Iterable
from dataclasses import field
from typing import Any, get_args

from pydantic import BaseModel, ValidationError, WithJsonSchema
from pydantic_core import ErrorDetails

from riglint.model.checked import checked
from riglint.model.documents.parts import TAGS
from riglint.model.vocabulary.fields import inside, quoted
from riglint.model.vocabulary.words import our_word
from riglint.read.document import Document
from riglint.read.problems import MOST_SUGGESTIONS, Problem, key_text, shown
from riglint.read.quantity import units_of
from riglint.read.spelling import nearest
from riglint.records import dataclass

Key = tuple[str | int, ...]

MOST_LISTED = 24  # keys; longer lists help nobody
CUT_OFF = re.compile(r"\d+ ?[a-zA-Z%°²/]*")  # the rest of a number behind a comma
ONE = re.compile(r"[\w.-][\w .%°±/-]*")  # one word or number, the same inside brackets
SHORT = 40  # characters; what is longer is not written out again


def plain_key(detail: ErrorDetails) -> Key:
    """Return where an error stands, as keys of the file."""
    return tuple(step for step in detail["loc"] if step not in TAGS)


@dataclass(slots=True)
class Words:
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

    def problem_of(self, detail: ErrorDetails) -> Problem:
        """Turn one validation error into a sentence."""
        key, kind = plain_key(detail), detail["type"]
        context, value, place = detail.get("ctx", {}), detail["input"], self.document.place(key)
        if kind == "extra_forbidden":
            return self.unknown_key(key, self.group(key), _fields_at(self.model, key[:-1]))
        if kind == "missing":
            return self.missing(key, self.group(key))
        if kind == "literal_error":
            words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
            return self.unknown_word(key, value, words)
        if "sentence" in context:
            said = context["sentence"], context["do"], context.get("instead", ()), context.get("written", "")
            return Problem(kind, place, key_text(key), *said)
        message, do, *instead = self.other(key, kind, value, context)
        written = str(value) if instead else ""
        return Problem("file/value", place, key_text(key), message, do, tuple(instead), written)

    def unknown_key(self, key: Key, group: str, known: Iterable[str], other: str = "") -> Problem:
        """Say which key is near, whose key it is, or which keys there are."""
        place = self.document.key_places.get(key, self.document.place(key))
        written, known = str(key[-1]), sorted(known)
        ours = our_word(written, known)
        suggestion = ours or self.near(written, known)
        free = bool(suggestion) and (*key[:-1], str(suggestion)) not in self.document.key_places
        if free:
            self.meant.add(key_text((*key[:-1], str(suggestion))))
        do = (
            f"Write {ours}. That is the word here for {written}."
            if ours
            else f"Write `{suggestion}` if you mean that."
            if suggestion
            else f"Take it out. {group[:1].upper()}{group[1:]} takes {', '.join(known)}."
        )
        if len(known) > MOST_LISTED and not suggestion:
            do = f"Take it out, or look up what {group} takes."
        if CUT_OFF.fullmatch(written):  # {height: 1,2 m}
            do = f"Write a decimal point, not a comma, if it ends a number such as 1.{written}."
        belongs = f"; it belongs to {other}" if other and not suggestion else ""
        message = f"{shown(written)} is not a key of {group}{belongs}."
        return Problem("file/key", place, key_text(key), message, do, (str(suggestion),) if free else ())

    def missing(self, key: Key, group: str) -> Problem:
        """Say what is missing and what belongs there."""
        if isinstance(key[-1], int):  # the second of a pair
            message = f"{shown(str(key[-2]))} has {key[-1]} of its two values."
            do = "Write two in brackets, such as [2 m, 2 m]."
            return Problem("file/value", self.document.place(key[:-1]), key_text(key[:-1]), message, do)
        model = _model_at(self.model, key[:-1])
        about = _models_fields(model).get(key[-1], "")
        words = get_args(model.model_fields[key[-1]].annotation) if key[-1] in model.model_fields else ()
        about = (
            f"one of {', '.join(words)}." if words and all(isinstance(one, str) for one in words) else about
        )
        add = f"Add {key[-1]}: {about[:1].lower()}{about[1:]}" if about else f"Add {key[-1]}, with its value."
        message = f"'{key[-1]}' is missing; {group} needs it."
        return Problem("file/key", self.document.place(key[:-1]), key_text(key), message, add)

    def unknown_word(self, key: Key, value: object, words: list[str]) -> Problem:
        """Say which word is near and which there are."""
        ours = our_word(value, words) if isinstance(value, str) else None
        suggestion = ours or (self.near(value, words) if isinstance(value, str) else None)
        listed = ", ".join(words)
        do = (
            f"Write {ours}. That is the word here for {value}."
            if ours
            else f"Write `{suggestion}` if you mean that. The words are {listed}."
            if suggestion
            else f"Write one of these: {listed}."
        )
        message = f"{shown(_name(key))} does not take the word {quoted(value)}."
        instead = (suggestion,) if suggestion else ()
        return Problem("file/value", self.document.place(key), key_text(key), message, do, instead)

    def other(self, key: Key, kind: str, value: object, context: dict[str, Any]) -> tuple[str, ...]:
        """Say what stands there and what was expected, what to write, and the same alone where it is plain."""
        if kind in {"model_type", "model_attributes_type", "dict_type"}:
            such = "{name: …}" if kind == "dict_type" else _such_group(_model_at(self.model, key), value)
            dash = " Or take the dash out." if value is None and isinstance(key[-1], int) else ""
            return (
                f"Expected keys with values, found {inside(value)}.",
                f"Write them in braces, such as {such}.{dash}",
            )
        if kind == "tuple_type" and isinstance(value, str) and len(value) < SHORT:
            message = f"Expected two values, found {inside(value)}."
            pair = f"[{value}, {value}]"
            return (
                message,
                f"Write two in brackets, such as {pair}.",
                *([pair] if ONE.fullmatch(value) else []),
            )
        if kind in {"list_type", "tuple_type"}:
            group = _group_in_list(self.model, key)
            short = isinstance(value, str) and len(value) < SHORT
            do = f"Write it in brackets: [{value}]." if short else ""
            if group is not None:  # a list of groups: `80 kg` alone is no user yet
                do = f"Write a list of groups: [{_such_group(group, value)}], or [] for none."
            one = isinstance(value, str) and short and group is None and ONE.fullmatch(value)
            said = f"Expected a list, found {inside(value)}.", do or "Write a list, or [] for none."
            return (*said, f"[{value}]") if one else said
        if kind in {"too_short", "too_long"}:
            message = f"{shown(_name(key))} has {context.get('actual_length')} values. Expected two."
            return message, "Write two in brackets, such as [2 m, 2 m]."
        if kind == "greater_than_equal":
            return (
                f"{quoted(value)} is too small. At least {context.get('ge')}.",
                f"Write {context.get('ge')} or more.",
            )
        return f"{quoted(value)} cannot be used here.", "See the format reference for what this key takes."


def belongs_at(model: type[BaseModel], key: Key) -> str:
    """Return what belongs at a key, from the model's own description and its list of words; empty if not known."""
    parent = _model_at(model, key[:-1])
    about = _models_fields(parent).get(str(key[-1]), "").rstrip(".")
    named = {entry.alias or name: entry.annotation for name, entry in parent.model_fields.items()}
    words = _words_in(named.get(str(key[-1])))
    return about + (f": {', '.join(words)}" if about and words else "")


def units_at(model: type[BaseModel], key: Key) -> list[str]:
    """Return the units that the value at a key may be written in; none where it takes none."""
    parent = _model_at(model, key[:-1])
    for name, entry in parent.model_fields.items():
        if key[-1] == (entry.alias or name):
            said = [*entry.metadata, *_notes_in(entry.annotation)]
            schemas = [one.json_schema for one in said if isinstance(one, WithJsonSchema)]
            dimensions = [
                d for one in schemas if one for d in (one.get("quantity"), *one.get("table", ())) if d
            ]
            return [unit for dimension in dict.fromkeys(dimensions) for unit in units_of(dimension)]
    return []


def keys_at(model: type[BaseModel], key: Key) -> dict[str, str]:
    """Return the keys that the group at `key` takes, and what each is about."""
    return _models_fields(_model_at(model, key))


def words_at(model: type[BaseModel], key: Key) -> list[str]:
    """Return the words that the value at a key may be; none where any is taken."""
    named = {
        entry.alias or name: entry.annotation
        for name, entry in _model_at(model, key[:-1]).model_fields.items()
    }
    return list(_words_in(named.get(str(key[-1]))))


def _group_in_list(model: type[BaseModel], key: Key) -> type[BaseModel] | None:
    """Return the model of the groups that the list at a key holds; None where it holds no groups."""
    parent = _model_at(model, key[:-1])
    named = {field.alias or name: field.annotation for name, field in parent.model_fields.items()}
    groups = _models_in(named.get(str(key[-1])))
    return groups[-1] if groups else None


def _such_group(model: type[BaseModel], value: object) -> str:
    """Return a group such as `{mass: 80 kg}`: the first key that takes the value as it was written, tried."""
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    if isinstance(value, dict):
        return "{" + ", ".join(f"{name}: …" for name in [*value][:1]) + "}"
    for name in fields if isinstance(value, str) and len(value) < SHORT else ():
        try:
            checked(model, {name: value})
        except ValidationError as error:
            wrong = {one["loc"][0] for one in error.errors()}
            more = ", …"
        else:
            wrong, more = set(), ""
        if name not in wrong:
            return f"{{{name}: {value}{more}}}"
    return f"{{{next(iter(fields), 'name')}: …}}"


def _notes_in(annotation: object) -> list[object]:
    own = [*getattr(annotation, "__metadata__", ())]
    return own + [note for inner in get_args(annotation) for note in _notes_in(inner)]


def _words_in(annotation: object) -> list[str]:
    """Return the words that a field takes, where it takes words."""
    inner = get_args(annotation)
    if inner and all(isinstance(one, str) for one in inner):
        return list(inner)
    return [word for one in inner for word in _words_in(one)]


def _name(key: Key) -> str:
    """Return the nearest key that has a name."""
    return next((step for step in reversed(key) if isinstance(step, str)), "the list")


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
