"""Places in the files, and what happens when a value that is needed does not stand there."""

from collections.abc import Callable
from dataclasses import field
from functools import wraps
from typing import ParamSpec, TypeVar

from riglint.loadpath import NotComputable
from riglint.mechanics.valid_range import OutOfRange
from riglint.model.load import Key
from riglint.read.document import Document
from riglint.read.problems import key_text
from riglint.records import dataclass

__all__ = [
    "At",
    "Key",
    "MissingInput",
    "NotComputable",
    "known",
    "need",
    "need_all",
    "outside",
    "within_range",
]

T = TypeVar("T")
P = ParamSpec("P")


@dataclass(frozen=True, slots=True)
class At:
    """A place to look at or to edit: a key of a document, and the part it concerns."""

    document: Document
    key: Key
    part: str | None = None
    called_by: Key = field(default=(), compare=False, repr=False)
    """The key in the rig that calls the kit, where a kit holds it."""

    def __post_init__(self) -> None:
        """Point to where a value was written: what a kit holds stands in its gear list."""
        if self.document.origins and (origin := self.document.origin(self.key)):
            object.__setattr__(self, "called_by", self.key)
            object.__setattr__(self, "document", origin.document)
            object.__setattr__(self, "key", origin.key)

    @property
    def in_kit(self) -> bool:
        """Whether it stands in a kit of a gear list."""
        return "kits" in self.key[:3:2]

    @property
    def path(self) -> str:
        """The file, relative to the library root."""
        return self.document.path

    @property
    def line(self) -> int:
        """The line, counted from 1; of the nearest group above where the key is not written."""
        return self.document.place(self.key).line

    @property
    def row(self) -> str:
        """The text of that line."""
        return self.document.row(self.line)

    @property
    def column(self) -> int:
        """The column in characters, counted from 1."""
        return self.document.place(self.key).column

    @property
    def key_text(self) -> str:
        """The key as it is written in reports."""
        return key_text(self.key)

    @property
    def own_key(self) -> Key:
        """The key in the rig itself, also of what a kit holds."""
        return self.called_by or self.key

    @property
    def reference(self) -> str:
        """File and line, as in `rigs/a.yaml:8`."""
        return f"{self.path}:{self.line}"


@dataclass(frozen=True, slots=True)
class Unanswered(At):
    """A place that is filled in, and still does not say what is asked."""

    lacks: str = ""
    """What is wrong with it, after its key: "ends before the far anchor"."""
    of: str = ""
    """What that concerns, where several questions meet at the place."""
    do: str = ""


@dataclass(frozen=True, slots=True)
class Advised(At):
    """A place that is not filled in, where the other values tell what to look for."""

    advice: str = ""  # one sentence


def advised(at: At, advice: str) -> Advised:
    """Return a place with what to look for there."""
    return Advised(at.document, at.key, at.part, at.called_by, advice)


def unanswered(at: At, lacks: str, do: str, of: str = "") -> Unanswered:
    """Return a place as one that does not answer."""
    return Unanswered(at.document, at.key, at.part, lacks=lacks, of=of, do=do)


class MissingInput(Exception):  # noqa: N818 - it is an answer, not a fault of the program
    """A value is needed that its file does not give: the question stays open until it is filled in."""

    def __init__(self, *fields: At) -> None:
        super().__init__(", ".join(at.key_text for at in fields))
        self.fields = fields


def need(value: T | None, at: At | Callable[[], At]) -> T:
    """Return a value that must be there.

    Args:
        value: the value.
        at: its place, or what finds it: where much is asked for, nearly everything is there.

    Raises:
        MissingInput: it is not.
    """
    if value is None:
        raise MissingInput(at if isinstance(at, At) else at())
    return value


def need_all(*pairs: tuple[object, At]) -> None:
    """Ask for several values at once, so that one run names all that are missing.

    Raises:
        MissingInput: with every field that is missing.
    """
    missing = [at for value, at in pairs if value is None]
    if missing:
        raise MissingInput(*missing)


def known(compute: Callable[[], T]) -> T | None:
    """Return what can be computed, else None: what is missing is told elsewhere."""
    try:
        return compute()
    except (MissingInput, NotComputable, OutOfRange):
        return None


class within_range:  # noqa: N801 - called like the functions beside it
    """Turn a number that the mechanics refuse into the answer that nothing can be computed with it.

    For a block, or for all that a function does.

    Raises:
        NotComputable: the mechanics raised ValueError, with its words.
    """

    __slots__ = ("what",)

    def __init__(self, what: str) -> None:
        self.what = what

    def __enter__(self) -> None:
        pass

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, ValueError):
            raise outside(self.what, error) from error

    def __call__(self, compute: Callable[P, T]) -> Callable[P, T]:
        """Return a function of which that holds."""
        what = self.what

        @wraps(compute)
        def computed(*given: P.args, **named: P.kwargs) -> T:
            try:
                return compute(*given, **named)
            except ValueError as error:
                raise outside(what, error) from error

        return computed


def outside(what: str, error: ValueError) -> NotComputable:
    """Return the answer that nothing can be computed with what the mechanics refuse, in their words."""
    return NotComputable(f"{what} is outside the range that we can calculate ({error})")
