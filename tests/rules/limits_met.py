"""What a rule says where a limit is met to the last bit, which no file with computed forces ever does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from functools import partial
from unittest.mock import patch

from riglint.model.values.policy import Values
from riglint.model.vocabulary.words import Consequence
from riglint.rulekit import Case, Limit, MissingInput, NotComputable, Rule
from tests.rules.cases import case_of

Said = list[tuple[object, ...]]
Judged = Callable[[int], Said]  # what a rule says with a limit below (-1), at (0) or above (1) all numbers
# From what a rule computes with a limit, in which the higher limit makes the lower number.
TURNED = frozenset({"__rsub__", "__rtruediv__", "__neg__"})
ARITHMETIC = ("add", "radd", "sub", "rsub", "mul", "rmul", "truediv", "rtruediv", "neg")
BEYOND = 9  # heavier than any signal word
# Where a rule speaks of what meets the limit, as its formula says.
SPEAKS_THERE = frozenset(
    {
        ("backup/presence", "span_on_tail"),  # a second line from that span on
        ("backup/presence", "tension_on_tail"),
        ("placement/aluminium", "aluminium"),  # told by the ratio only where that is missed
    }
)


class AsIf(float):
    """A number that compares as if it were below, at or above all others, and so does what is computed from it."""

    side: int

    def __lt__(self, _other: float) -> bool:
        return self.side < 0

    def __le__(self, _other: float) -> bool:
        return self.side <= 0

    def __gt__(self, _other: float) -> bool:
        return self.side > 0

    def __ge__(self, _other: float) -> bool:
        return self.side >= 0


def as_if(side: int, value: float) -> AsIf:
    """Return a number that stands on one side of all others."""
    made = AsIf(value)
    made.side = side
    return made


def _arithmetic(name: str) -> Callable[..., AsIf]:
    def computed(number: AsIf, *others: float) -> AsIf:
        side = -number.side if name in TURNED else number.side
        return as_if(side, getattr(float, name)(float(number), *map(float, others)))

    return computed


for _name in ARITHMETIC:
    setattr(AsIf, f"__{_name}__", _arithmetic(f"__{_name}__"))


def not_kept(rule_id: str, rule: Rule) -> Iterator[str]:
    """Yield where a rule finds more fault with a limit that is met exactly than with one that is met with room."""
    for n, example in enumerate(rule.examples):
        for name, tighter, judged in _limits(rule_id, rule, n) if example.verdict != "open" else ():
            met, speaks = _weight(judged(0)), (rule_id, name) in SPEAKS_THERE
            if not met and not speaks:
                continue
            below, above = _weight(judged(-1)), _weight(judged(1))
            with_room = (
                below if tighter == "higher" else above
            )  # an example may be at fault for another reason
            if met < max(below, above) if speaks else met > min(below, above) and met != with_room:
                yield f"{name}, met exactly by {example.edits}: {met}; on either side {below}, {above}"


def _limits(rule_id: str, rule: Rule, n: int) -> Iterator[tuple[str, str, Judged]]:
    """Yield every limit and every required ratio that a rule asks for, and how it judges an example by that."""
    for limit in rule.limits:
        yield limit.name, limit.tighter, partial(_with_limit, rule_id, rule, n, limit)
    for row in sorted(_rows_asked(rule_id, rule, n)):
        yield row, "higher", partial(_with_ratio, rule_id, rule, n, row)


def _rows_asked(rule_id: str, rule: Rule, n: int) -> set[str]:
    rows = set()

    def noted(row: str, plain: float | None) -> float | None:
        rows.add(row)
        return plain

    with _required(noted):
        _said(rule_id, rule, n, {})
    return rows


def _with_limit(rule_id: str, rule: Rule, n: int, limit: Limit, side: int) -> Said:
    return _said(rule_id, rule, n, {f"{rule_id}.{limit.name}": as_if(side, limit.si)})


def _with_ratio(rule_id: str, rule: Rule, n: int, row: str, side: int) -> Said:
    with _required(lambda asked, plain: plain if asked != row or plain is None else as_if(side, plain)):
        return _said(rule_id, rule, n, {})


def _required(answer: Callable[[str, float | None], float | None]) -> AbstractContextManager[object]:
    """Return a context in which the required ratios are others."""
    plain = Values.required

    def required(values: Values, row: str, consequence: Consequence) -> float | None:
        return answer(row, plain(values, row, consequence))

    return patch.object(Values, "required", required)


def _weight(said: Said) -> tuple[int, ...]:
    """Return how much fault is found, most severe first."""
    return tuple(sorted((int(str(one[-1])) for one in said), reverse=True))


def _said(rule_id: str, rule: Rule, n: int, limits: dict[str, float]) -> Said:
    """Return where a rule finds fault with an example, and with which word."""
    found: Said = []
    try:
        case = case_of(rule_id, n, limits, apart=True)
        for subject in rule.each.of(case):
            for fault in rule.check(case, subject):
                word = fault.signal or rule.at(case.consequence if isinstance(case, Case) else "ground")
                found.append((fault.at.key_text, fault.at.part, fault.kind, int(word)))
    except (MissingInput, NotComputable) as reason:
        found.append((str(reason), 0))
    except ValueError as reason:  # beyond what the mechanics take: nothing that a limit could be
        found.append((str(reason), BEYOND))
    return found
