"""What the ± of the inputs does to findings: a verdict that would flip inside it says so.

Every rule judges the rig again with each uncertain input at both of its ends, and nearer to the value as well where an
end says anything else: a fault may come and give way to another. A fail that passes at an end stays a fail and says so.
What passes as written and fails there is open, at the word that it has there, and so is what is graver; what cannot be
judged there is open as well. So a larger ± gives no quieter verdict. Two inputs that flip a verdict only together are
not looked for, nor what comes and goes again before an end that says the same as the value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from riglint.findings.finding import Finding, Where
from riglint.findings.rule_runs import RunResult
from riglint.loadpath.path import first_up
from riglint.loads.what_if.uncertain_inputs import UncertainInput, combined
from riglint.model.library import RigFile
from riglint.model.values.sources import OWN
from riglint.records import dataclass
from riglint.rulekit import Rule, Signal

Name = tuple[str, str, str, str | None]
# Share of a value: how near to it places inside its ± are looked at, each half as far as the last.
NEAREST = 0.01
MOST_NEARER = 7
NOISE = 1e-7  # share of a value that root searches may leave
WHY = "A verdict is worth nothing if it depends on less than anyone has measured."


@dataclass(frozen=True, slots=True)
class _MovedInput:
    """The same for a rig with one input at one end of its ±."""

    moved: UncertainInput
    by: float  # times its ±
    fails: dict[Name, Finding]
    result: RunResult

    @property
    def sign(self) -> str:
        return "−" if self.by < 0.0 else "+"

    @property
    def whole(self) -> bool:
        """Whether it is the very end, or a place nearer to the value."""
        return abs(self.by) == 1.0

    @property
    def words(self) -> str:
        """Where that is."""
        if self.whole:
            return f"at the {self.sign} end of {_words(self.moved)}"
        return f"inside the ± of {_words(self.moved)}"


def weigh(
    rig: RigFile,
    result: RunResult,
    judge_again: Callable[[UncertainInput, float], RunResult],
    word: Callable[[str], Signal],
    rules: Mapping[str, Rule],
    *,
    inputs: tuple[list[UncertainInput], list[UncertainInput]],
) -> list[Finding]:
    """Return the findings of a rig with the uncertainty of its inputs weighed in; the same where it states none.

    Args:
        rig: the rig as written.
        result: what the rules say of it.
        judge_again: judges it with an input moved by so many of its ±.
        word: the worst word that a rule could give here.
        rules: the rules in force.
        inputs: those that are moved, and those that are too many.
    """
    weighed, left_out = inputs
    sides = [(one, direction) for one in weighed for direction in (-1.0, 1.0)]
    ends = [end for side in sides for end in _looked_at(result, *side, judge_again)]
    outer = [end for end in ends if end.whole]
    findings = [_weighed(one, outer) if _is_fail(one) else one for one in result.findings]
    findings += _appearing(result, ends)
    findings += [one for moved in weighed for one in _silenced(moved, result, ends, word, rules)]
    findings += _crashing(result, ends)
    return findings + (
        _not_moved(rig, left_out, max(map(word, rules), default=Signal.DANGER)) if left_out else []
    )


def _looked_at(
    result: RunResult,
    moved: UncertainInput,
    direction: float,
    judge_again: Callable[[UncertainInput, float], RunResult],
) -> Iterator[_MovedInput]:
    """Yield an end of an input, and places nearer to its value where the end says anything else than the value."""
    for halvings in range(1 + MOST_NEARER):
        by = direction / 2.0**halvings
        if halvings and abs(by) * moved.plus_minus < NEAREST * abs(moved.si):
            return
        again = judge_again(moved, by)
        end = _MovedInput(moved, by, _fails(again.findings), again)
        yield end
        if end.whole and _says_the_same(end, result):
            return


def _says_the_same(end: _MovedInput, result: RunResult) -> bool:
    here = _fails(result.findings)
    words = {name: one.signal for name, one in here.items()}
    return {
        name: one.signal for name, one in end.fails.items()
    } == words and end.result.silent == result.silent


def _name(finding: Finding) -> Name:
    return finding.rule, finding.at.path, finding.at.key, finding.at.part


def _is_fail(finding: Finding) -> bool:
    return finding.kind == "fail" and not finding.crashed


def _fails(findings: list[Finding]) -> dict[Name, Finding]:
    """Return the gravest fault of each rule at each place."""
    found: dict[Name, Finding] = {}
    for one in findings:
        if _is_fail(one) and (_name(one) not in found or found[_name(one)].signal < one.signal):
            found[_name(one)] = one
    return found


def _weighed(finding: Finding, ends: list[_MovedInput]) -> Finding:
    """Give a fail the ± of its value, and say so where it would pass inside the ± of an input."""
    name = _name(finding)
    values = _effects(finding, ends, lambda one: _number(one.value))
    margins = _effects(finding, ends, _margin)
    passing = [one for one in ends if name not in one.fails and finding.rule not in one.result.silent]
    margin = _margin(finding)
    # No one input may flip it, and all of them together still could.
    together = margin is not None and bool(margins) and abs(margin) <= combined(list(margins.values()))
    if passing or together:
        flipping = [one.moved for one in passing] or [one.moved for one in ends if one.moved.name in margins]
        most = max(flipping, key=lambda one: margins.get(one.name, 0.0))
        message = f"{finding.message} This is within the uncertainty of the inputs, mainly of {_words(most)}."
        do = (
            f"{finding.do} Or measure {most.at.key_text} more closely and audit again. Until "
            "then it counts as wrong."
        )
        finding = replace(finding, message=message, do=do)
    spread = combined(list(values.values()))
    return replace(finding, plus_minus=spread) if spread > 0.0 else finding


def _effects(
    finding: Finding, ends: list[_MovedInput], of: Callable[[Finding], float | None]
) -> dict[str, float]:
    """Return how far each input moves a number of a finding, at the end that moves it further."""
    found: dict[str, float] = {}
    here = of(finding)
    for end in ends:
        there = end.fails.get(_name(finding))
        # In another unit it is a fault by another limit, and their numbers cannot be compared.
        value = None if there is None or there.unit != finding.unit else of(there)
        if here is None or value is None or abs(value - here) <= NOISE * abs(here):
            continue
        found[end.moved.name] = max(abs(value - here), found.get(end.moved.name, 0.0))
    return found


def _number(value: float | str | None) -> float | None:
    return float(value) if isinstance(value, int | float) else None


def _margin(finding: Finding) -> float | None:
    value, limit = _number(finding.value), _number(finding.limit)
    return None if value is None or limit is None else value - limit


def _appearing(result: RunResult, ends: list[_MovedInput]) -> list[Finding]:
    """Return an open finding for each thing that passes, or is less grave, as written than with an input at an end."""
    here = _fails(result.findings)
    found: dict[Name, tuple[Signal, float, _MovedInput]] = {}
    for end in ends:
        for name, fault in _graver(here, end.fails):
            # The gravest word first, then the widest miss.
            over = fault.signal, abs(_margin(fault) or 0.0)
            if name not in found or over > found[name][:2]:
                found[name] = *over, end
    return [_open(end, end.fails[name], here.get(name)) for name, (_, _, end) in found.items()]


def appearing(here: list[Finding], there: list[Finding]) -> list[Finding]:
    """Return the faults at one end of an input that pass, or are less grave, as written."""
    return [fault for _, fault in _graver(_fails(here), _fails(there))]


def _graver(here: dict[Name, Finding], there: dict[Name, Finding]) -> Iterator[tuple[Name, Finding]]:
    for name, fault in there.items():
        if name not in here or here[name].signal < fault.signal:
            yield name, fault


def _open(end: _MovedInput, fault: Finding, here: Finding | None) -> Finding:
    written = f"is {here.signal.name}" if here else "passes"
    text = f"This {written} as written, but {fault.signal.name} {end.words}: {fault.message}"
    do = f"Measure {end.moved.at.key_text} more closely and audit again, or act as if it were wrong: {fault.do}"
    return replace(fault, kind="open", message=text, do=do, rules=(fault.rule,))


def _silenced(
    moved: UncertainInput,
    result: RunResult,
    ends: list[_MovedInput],
    word: Callable[[str], Signal],
    rules: Mapping[str, Rule],
) -> list[Finding]:
    """Return an open finding where rules that judge the rig as written cannot at an end of an input."""
    failing = {one.rule for one in result.findings if _is_fail(one)}
    crashed = {one.rule for end in ends for one in end.result.findings if one.crashed}
    failing |= crashed  # these have findings of their own
    own = [end for end in ends if end.moved is moved and end.result.silent - result.silent - failing]
    silent = {name for end in own for name in end.result.silent} - result.silent - failing
    if not silent:
        return []
    lost = sorted(silent, key=lambda name: (-word(name), name))
    first, more = lost[0], f" and {len(lost) - 1} more" if len(lost) > 1 else ""
    signs = [end.sign for end in own if end.whole]
    where = f"At the {' and the '.join(signs)} end of" if signs else "Inside the ± of"
    because = next((f" ({end.result.because})" for end in own if end.result.because), "")
    message = f"{where} {_words(moved)} {first}{more} cannot be judged{because}."
    do = f"Measure {moved.at.key_text} more closely and audit again."
    rule, at = rules[first], Where(moved.at.path, moved.at.line, moved.at.column, moved.at.key_text)
    return [
        Finding(first, word(first), "open", message, rule.why, do, at, OWN, rule.formula, rules=tuple(lost))
    ]


def _crashing(result: RunResult, ends: list[_MovedInput]) -> list[Finding]:
    """Return the rules that crash at an end and not as written, each once."""
    here = {one.rule for one in result.findings if one.crashed}
    found: dict[str, Finding] = {}
    for end in ends:
        for one in end.result.findings:
            if one.crashed and one.rule not in here:
                text = f"{first_up(end.words)}: {one.message}"
                found.setdefault(one.rule, replace(one, message=text))
    return list(found.values())


def _not_moved(rig: RigFile, left_out: list[UncertainInput], word: Signal) -> list[Finding]:
    """Say which ± was not weighed: whatever it hides stays open."""
    names = ", ".join(one.at.key_text for one in left_out[:3]) + (", …" if len(left_out) > 3 else "")  # noqa: PLR2004
    message = (
        f"{len(left_out)} values with a ± are too many to weigh, so nobody knows what they hide: {names}."
    )
    do = "Take the ± off where it hardly matters."
    at = Where(rig.document.path, 1, 1, "")
    return [Finding("file/uncertainty", word, "open", message, WHY, do, at, OWN, rules=("file/uncertainty",))]


def _words(moved: UncertainInput) -> str:
    return f"{moved.at.key_text} ({moved.text})"
