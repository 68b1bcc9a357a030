"""The events of YAML text: of the parser in C where Python has it, else kept for whoever reads a text again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import count
from typing import Any

import yaml

Event = Any  # of the parser; its published types leave open what it always sets


def next_event(text: str) -> Callable[[], Event]:
    """Return the function that gives event after event.

    Without libyaml it takes ten times as long, so there the events of the last few texts are kept: who judges a rig
    again after each change reads its gear list once.
    """
    return yaml.CSafeLoader(text).get_event if yaml.__with_libyaml__ else _kept(text).from_the_start()


@lru_cache(maxsize=16)
def _kept(text: str) -> _KeptEvents:
    return _KeptEvents(text)


class _KeptEvents:
    """The events of one text, each read when it is first asked for."""

    def __init__(self, text: str) -> None:
        self.loader = yaml.SafeLoader(text)
        self.events: list[Event] = []
        self.error: Exception | None = None  # where the text cannot be read on

    def from_the_start(self) -> Callable[[], Event]:
        """Return a function that gives them one after the other, and raises where the text cannot be read on."""
        return self._each().__next__

    def _each(self) -> Iterator[Event]:
        for n in count():
            if n == len(self.events):
                self.events.append(self._read())
            yield self.events[n]

    def _read(self) -> Event:
        if self.error is not None:
            raise self.error
        try:
            event: Event = self.loader.get_event()  # type: ignore[no-untyped-call]
        except Exception as error:
            self.error = error
            raise
        return event
