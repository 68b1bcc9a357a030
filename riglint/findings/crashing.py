"""What stands for a rule or a rig that did not come to its end: a DANGER, never nothing.

A rule is somebody's program and may throw anything, say rubbish, or never stop. All of it ends here, so that it hides
nothing that other rules say.
"""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from types import NoneType
from typing import NoReturn, get_args

from riglint.findings.finding import Finding, Where
from riglint.loads.inputs import At
from riglint.model.values.sources import OWN, Source
from riglint.rulekit import Fault, Input, Signal
from riglint.rulekit.verdicts import Kind

WHY_CRASHED = "A check that did not run must not look like a check that passed."
WHY_STUMBLED = "A rig that was not calculated must not look like a rig that passed."
REPORT_IT = "Do not rely on this audit. Report the file and this sentence to whoever keeps"
LONGEST_TOLD = 200  # characters of what an error says
MOST_OF_ONE_RULE = 10_000  # faults in one rig; a rule that says more does not come to an end


class StoppedError(KeyboardInterrupt):
    """Whoever called pressed Ctrl-C; what a rule throws is never this."""


class RubbishError(Exception):
    """A rule said something that is no fault, or more than anybody could read."""


@contextmanager
def stoppable() -> Iterator[Callable[[], None]]:
    """Tell Ctrl-C from a KeyboardInterrupt that a rule throws, as long as the block lasts.

    Gives a function to call now and then. It throws again what Python drops where nothing can catch it, as while an
    object is being deleted. Outside the main thread, and where the caller has a handler of its own, nothing is changed.
    """
    pressed: list[int] = []

    def go_on() -> None:
        if pressed:
            raise StoppedError

    ours = threading.current_thread() is threading.main_thread()
    if not ours or signal.getsignal(signal.SIGINT) is not signal.default_int_handler:
        yield go_on
        return

    def stop(number: int, _frame: object) -> NoReturn:
        pressed.append(number)
        raise StoppedError

    def dropped(lost: sys.UnraisableHookArgs) -> None:
        if not isinstance(lost.exc_value, StoppedError):
            before(lost)

    before, sys.unraisablehook = sys.unraisablehook, dropped
    signal.signal(signal.SIGINT, stop)
    try:
        yield go_on
    finally:
        signal.signal(signal.SIGINT, signal.default_int_handler)
        sys.unraisablehook = before


class caught:  # noqa: N801 - called like the functions beside it
    """Tell whatever the block throws, so that it hides nothing else; only Ctrl-C goes on."""

    __slots__ = ("_tell",)

    def __init__(self, tell: Callable[[BaseException], object]) -> None:
        self._tell = tell

    def __enter__(self) -> None:
        """Begin."""

    def __exit__(self, _kind: object, error: BaseException | None, _where: object) -> bool:
        """Tell: a rule may throw anything, and so may what it makes us do."""
        if error is None or isinstance(error, StoppedError):
            return False
        self._tell(error)
        return True


def in_words(error: BaseException) -> str:
    """Return what an error says, shortened; its words may fail as well."""
    name = type(error).__name__
    try:
        said = " ".join(str(error).split())
    except BaseException:  # noqa: BLE001 - whatever it is, the error itself is told
        return name
    short = said if len(said) <= LONGEST_TOLD else f"{said[:LONGEST_TOLD]}…"
    return f"{name}: {short}" if short else name


def crashed(rule_id: str, error: BaseException, path: str) -> Finding:
    """Return the finding that stands for a rule which did not come to an end."""
    message = f"The rule {rule_id} crashed ({in_words(error)}), so its question is not answered."
    return _danger(rule_id, message, WHY_CRASHED, f"{REPORT_IT} the rule.", path)


def stumbled(path: str, error: BaseException) -> Finding:
    """Return the finding that stands for a file which riglint could not audit."""
    message = f"riglint could not calculate this rig ({in_words(error)}), so nothing here is checked."
    return _danger("file/readable", message, WHY_STUMBLED, f"{REPORT_IT} riglint.", path)


def stopped(path: str) -> Finding:
    """Return the finding that stands for a file which an audit did not come to because somebody stopped it."""
    message = "The audit was stopped before it came to this file, so nothing here is checked."
    do = "Do not rely on this audit. Audit this file again."
    return _danger("file/readable", message, WHY_STUMBLED, do, path)


def not_loaded(name: str, because: str, path: str) -> Finding:
    """Return the finding that stands for a rule set which was asked for and did not load whole."""
    message = f"The rule set {name} did not load completely, so none of its questions is answered. {because}"
    do = "Do not rely on this audit. Correct the rule set, or audit without it and say so."
    return _danger(name, message, WHY_CRASHED, do, path)


def _danger(rule: str, message: str, why: str, do: str, path: str) -> Finding:
    return Finding(rule, Signal.DANGER, "fail", message, why, do, Where(path, 1, 1, ""), OWN, crashed=True)


def faults_of(said: Iterable[object]) -> Iterator[Fault]:
    """Yield the faults that a rule says, each looked at.

    Raises:
        RubbishError: something is no whole fault, or they do not come to an end.
    """
    for number, one in enumerate(said):
        if number >= MOST_OF_ONE_RULE:
            raise RubbishError(f"it names more than {MOST_OF_ONE_RULE} faults in one place")
        yield _whole(one)


_TEXT, _NUMBER = (str, NoneType), (int, float, str, NoneType)
_TYPES: tuple[tuple[str, type | tuple[type, ...]], ...] = (
    ("at", At),
    ("signal", (Signal, NoneType)),
    ("source", (Source, NoneType)),
    ("why", _TEXT),
    ("state", _TEXT),
    ("unit", _TEXT),
    ("value", _NUMBER),
    ("limit", _NUMBER),
    ("inputs", tuple),
    ("remedies", tuple),
    ("rigs", tuple),
)
_KINDS = get_args(Kind)


def _whole(fault: object) -> Fault:
    if not isinstance(fault, Fault):
        raise RubbishError(f"it says a {type(fault).__name__} where a fault is expected")
    for name, kinds in _TYPES:
        value = getattr(fault, name)
        if not isinstance(value, kinds):
            raise RubbishError(f"its fault has a {type(value).__name__} as {name}")
    if not all(isinstance(one, Input) for one in fault.inputs):
        raise RubbishError("its fault has inputs that are none")
    if fault.kind not in _KINDS:
        raise RubbishError("its fault is of no known kind")
    texts: tuple[object, ...] = (fault.message, fault.do)
    if not all(isinstance(text, str) and text.strip() for text in texts):
        raise RubbishError("its fault says nothing")
    return fault
