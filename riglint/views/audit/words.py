"""What reports of an audit say in words, whatever their form."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isinf
from typing import Literal

from riglint.findings import READING, Audit, FileResult, Finding
from riglint.loads import Loads
from riglint.loads.states.state_kinds import when
from riglint.model.values.sources import MARKS
from riglint.policy import InForce
from riglint.rulekit import Signal, first_up, rounded
from riglint.views.audit.part_names import PartNames
from riglint.views.figures import number

IN_NEWTON_BELOW = 50.0  # N
CAUTION_TEXT = (
    "A calculation is no inspection. Local rules, the gear makers' instructions and competent people on site come "
    "first. Passing these rules does not mean that a rig may be used."
)
LONGEST_KEY = 160  # characters
Touching = Mapping[str, Sequence[tuple[str, Finding]]]


def heading(audit: Audit) -> str:
    """Say what was audited, as of which day and by which limits."""
    rigs = sum(result.kind == "rig" for result in audit.files)
    others = len(audit.files) - rigs
    limits = f"policy: {audit.force.title}" if audit.force.path else "standard limits"
    house = f" with house rules {' and '.join(audit.house)}" if audit.house else ""
    beside = f" and {count(others, 'other file')}" if others else ""
    return f"Audit of {count(rigs, 'rig')}{beside} as of {audit.on}, {audit.rules} rules{house}, {limits}"


def policy_in_words(force: InForce) -> str:
    """Say how much a policy changes."""
    loosened = sum(one.loosens for one in force.changes)
    tightened = len(force.changes) - loosened
    said = [f"tightens {count(tightened, 'value')}"] if tightened else []
    said += [f"loosens {loosened}"] if loosened else []
    return " and ".join(said) or "changes nothing of the defaults"


def touching(audit: Audit) -> Touching:
    """Return what other files, shared ones, hold of each rig, by its path, each with the path of that file."""
    found: dict[str, list[tuple[str, Finding]]] = {}
    for file in audit.files:
        for one in file.findings if any(gist.touches for gist in file.gists) else ():
            for rig in one.rigs:
                if rig != file.path:
                    found.setdefault(rig, []).append((file.path, one))
    return found


def counting(shared: Touching, result: FileResult) -> list[Finding]:
    """Return what counts in the shared files that touch a rig."""
    return [one for _, one in shared.get(result.path, ()) if one.counts]


def in_shared_files(shared: Touching, result: FileResult) -> str:
    """Say which shared files have something that touches a rig."""
    signals: dict[str, list[Signal]] = {}
    for path, one in shared.get(result.path, ()):
        signals.setdefault(path, []).append(one.signal)
    return "; ".join(
        f"{path}, {count(len(of), 'finding')} up to {max(of).name}" for path, of in signals.items()
    )


def to_look_at(findings: Sequence[Finding]) -> str:
    """Return what a person must look at, in one place or in several; a check that is due says already what to do."""
    first, *others = findings
    told = first.message if first.is_due else f"{first.message} {first.do}"
    lines = [str(one.at.line) for one in findings]
    where = f"line {lines[0]}" if not others else f"lines {', '.join(lines)}"
    also = "".join(f" Also: {one.message}" for one in others if one.message != first.message)
    return f"{told}{also} ({first.rule}, {where})"


def of_the_file(finding: Finding) -> bool:
    """Return whether a finding tells what is wrong with a file rather than with a rig."""
    return finding.source == READING


def states_in_words(loads: Loads) -> str:
    """Return the tension with nobody on the line and in the states that people cause.

    Raises:
        MissingInput, NotComputable: they cannot be computed.
    """
    standing_n = loads.standing_state.tension_n
    # A rodeo line hangs by its own weight alone.
    standing = f"{number(standing_n, 2)} N" if standing_n < IN_NEWTON_BELOW else number(standing_n / 1000)
    named = [f"standing {standing}"]
    named += [f"{state.kind.words} {number(state.tension_n / 1000)}" for state in loads.people()]
    read = loads.tension_reading
    told = f"; standing tension by the {read.words}, line {read.at.line}" if read else ""
    return f"{', '.join(named)} kN{told}"


def first_to_go(loads: Loads) -> str:
    """Say which part has the least to spare.

    Raises:
        MissingInput, NotComputable: a force or a strength is not known.
    """
    found = []
    for load in loads.parts:
        worst = load.worst(loads.peaks())
        if worst is not None:
            found.append((worst, load.id, load.words))
    worst, part, words = min(found, key=lambda one: one[0].order)
    peak = f"{number(worst.force_n / 1000)} kN {when(worst.state)}"
    names = PartNames(loads)
    known = names.name(part) or part
    name = words if names.short(part) in words else known if words in known else f"{words}, {known}"
    if worst.ratio == 0.0:
        return f"{name}: no strength is known for the way it lies; its worst load is {peak}"
    return f"{name}: holds {rounded(worst.ratio, 'down')} × its worst load ({peak})"


def source_in_words(finding: Finding) -> str:
    """Return the source and how far it may be trusted, without saying the same twice."""
    text, mark = finding.source.text, MARKS[finding.source.mark]
    if text == mark:
        return text
    return f"source: {text}" if of_the_file(finding) else f"source: {text} ({mark})"


def key_in_words(key: str) -> str:
    """Return the key where to edit, its middle left out where it is longer than anybody reads."""
    if not key:
        return ""
    return (
        f", {key if len(key) <= LONGEST_KEY else f'{key[: LONGEST_KEY // 2]} … {key[-LONGEST_KEY // 4 :]}'}"
    )


def plus_minus(finding: Finding) -> str:
    """Return the ± of a value, where it shows beside the digits that the value is given with."""
    if finding.plus_minus is None or not isinstance(finding.value, int | float):
        return ""
    shows = finding.plus_minus >= abs(finding.value) / 1000.0
    return f" ± {finding.plus_minus:.1g}" if shows else ""


def against(finding: Finding) -> str:
    """Return the value of a finding with its ±, against its limit, and the state."""
    unit = finding.unit or ""
    state = f", state {finding.state}" if finding.state else ""
    value, limit = _apart(finding.value, finding.limit)
    if value == limit and isinstance(finding.value, int | float):
        return f"{_with_unit(value, unit)}, just the limit{state}"
    return f"{_with_unit(value + plus_minus(finding), unit)} against {_with_unit(limit, unit)}{state}"


def _with_unit(value: str, unit: str) -> str:
    """Return a value with its unit: `5 kN`, `98°`, `1 point`, and a ratio alone."""
    if unit == "deg":
        return f"{value}°"
    if value == "1" and unit.endswith("s"):
        unit = unit[:-1]
    return f"{value} {unit}" if unit not in {"", "1"} else value


def _apart(value: float | str | None, limit: float | str | None) -> tuple[str, str]:
    """Return a value, rounded away from its limit as sentences do, and the limit, with digits enough to differ."""
    if not isinstance(value, int | float) or not isinstance(limit, int | float) or isinf(value):
        return number(value), number(limit)
    way: Literal["down", "up"] = "down" if value < limit else "up"
    pairs = [(rounded(value, way, digits), number(limit, digits)) for digits in (3, 4, 5, 6)]
    return next((pair for pair in pairs if pair[0] != pair[1]), pairs[0])


NUMBERS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]


def count(n: int, what: str) -> str:
    """Return a number with what is counted, such as `2 rigs`."""
    return f"{n} {what}{'' if n == 1 else 's'}"


def _in_words(n: int, what: str) -> str:
    word = NUMBERS[n] if n < len(NUMBERS) else str(n)
    return f"{word} {what}{'' if n == 1 else 's'}"


def closing(audit: Audit) -> str:
    """Return the last sentence of a report: what there is to do."""
    findings = [gist for gist in audit.gists if gist.counts]
    unread = sum(not result.judged for result in audit.files)
    if audit.nothing_found:
        return "Nothing to audit: no file named here begins with the key riglint."
    said: list[str] = []
    danger = sum(one.signal == Signal.DANGER and one.kind == "fail" for one in findings)
    warning = sum(one.signal == Signal.WARNING and one.kind == "fail" for one in findings)
    blank = sum(one.kind == "open" and one.is_field for one in findings)
    open_ = sum(one.kind == "open" and not one.of_a_file for one in findings) - blank
    caution = sum(one.signal == Signal.CAUTION and one.kind == "fail" for one in findings)
    review = sum(one.kind == "review" for one in findings)
    said += [f"{_in_words(danger, 'reason')} not to tension or load"] if danger else []
    said += [f"{_in_words(warning, 'thing')} to correct before anyone walks"] if warning else []
    said += [f"{_in_words(open_, 'question')} left open"] if open_ else []
    said += [f"{_in_words(blank, 'field')} to fill in"] if blank else []
    said += [f"{_in_words(caution, 'thing')} to know and improve"] if caution else []
    notice = sum(one.signal == Signal.NOTICE and one.kind == "fail" for one in findings)
    said += [f"{_in_words(notice, 'thing')} for the gear list or the club"] if notice else []
    said += [f"{_in_words(review, 'thing')} to look at on site"] if review else []
    said += [f"{_in_words(unread, 'file')} not judged"] if unread else []
    if not said or audit.rules == 0:
        said.insert(0, _nothing_said(audit))
    return f"{first_up(', '.join(said))}.{_without_a_rig(audit)}"


def _nothing_said(audit: Audit) -> str:
    """Return what it means that no rule says anything, which is no pass where rules are off."""
    if audit.rules == 0:
        return NO_RULES.removesuffix(".")
    left = unfit(audit)
    if left:
        return f"no problems found by the rules that are left. {' '.join(left)}".removesuffix(".")
    return "no problems found by these rules"


def _without_a_rig(audit: Audit) -> str:
    """Say that no rig was there, where none was: forces, ratios and heights of falls are not judged then."""
    if any(result.kind not in {"spot", "shelf"} or not result.judged for result in audit.files):
        return ""
    kinds = {result.kind for result in audit.files}
    what = "gear" if kinds == {"shelf"} else "spot" if kinds == {"spot"} else "spot and gear"
    return f" No rig was there: {what} alone {'were' if len(kinds) > 1 else 'was'} judged, without any force."


NOT_WHOLE = "A rule set that was asked for did not load whole: its rules judged nothing."
NO_RULES = "No rule is in force: nothing was judged."


def unfit(audit: Audit) -> list[str]:
    """Return what keeps an audit from being one, whatever it found: it stands at the top of every report."""
    said = [] if audit.whole else [NOT_WHOLE]
    said += [] if audit.rules or audit.force.none_left else [NO_RULES]
    return said + unfit_policy(audit.force)


def unfit_policy(force: InForce) -> list[str]:
    """Say which families of rules a policy leaves empty."""
    if force.none_left:
        return [f"{NO_RULES} The policy {force.title} turns off every rule."]
    if not force.emptied:
        return []
    families = ", ".join(force.emptied)
    return [f"The policy {force.title} turns off every rule of {families}: nobody answers these questions."]


def at_the_top(audit: Audit) -> list[str]:
    """Return what a report says before everything else."""
    return [*audit.what_if, *unfit(audit), *([difference_in_words(audit.differs)] if audit.differs else [])]


def difference_in_words(differs: str) -> str:
    """Say how the rulebook of a checkout differs from its manifest."""
    return f"Rulebook under development, {differs}. `python -m riglint.reports.rules.pages` seals it anew."


def sealed(seal: str) -> str:
    """Name the rulebook that judged."""
    return f"rulebook {seal}"
