"""Examples of rules: single changes of a sound rig, which are its tests and its documentation."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal, NamedTuple

from riglint.hazards import known
from riglint.records import dataclass
from riglint.rulekit.verdicts import Signal


@dataclass(frozen=True, slots=True)
class Example:
    """One fault put into a sound rig, or a change that keeps it sound; the tests run it, the rulebook prints it."""

    verdict: Literal["sound", "faulty", "open", "review"]
    baseline: str
    edits: tuple[tuple[str, Any], ...] = ()
    at: str | None = None
    signal: Signal | None = None
    on: str = "2026-05-02"
    recalled: tuple[str, ...] = ()  # gear that the policy in force takes out of use
    beside: tuple[tuple[tuple[str, Any], ...], ...] = ()  # other rigs of the library: edits of the same rig
    shows: tuple[str, ...] = ()  # the hazards that it stands for, where its rule prevents several


class Removed(NamedTuple):
    """Takes a key away."""


class Inserted(NamedTuple):
    """Puts entries before one of a list."""

    entries: tuple[dict[str, Any], ...]


REMOVE = Removed()


def insert_before(*entries: dict[str, Any]) -> Inserted:
    """Return the edit value that puts parts before the one that the edit names."""
    return Inserted(entries)


def _example(verdict: Literal["sound", "faulty", "open", "review"]) -> Callable[..., Example]:
    def build(
        baseline: str,
        edits: dict[str, Any] | None = None,
        *,
        at: str | None = None,
        signal: Signal | None = None,
        on: str = "2026-05-02",
        recalled: tuple[str, ...] = (),
        beside: tuple[dict[str, Any], ...] = (),
        shows: str | tuple[str, ...] = (),
    ) -> Example:
        others = tuple([tuple(one.items()) for one in beside]) if beside else ()
        hazards = known((shows,) if isinstance(shows, str) else shows) if shows else ()
        changed = tuple(edits.items()) if edits else ()
        return Example(verdict, baseline, changed, at, signal, on, recalled, others, hazards)

    return build


sound, faulty, open_, review = _example("sound"), _example("faulty"), _example("open"), _example("review")
