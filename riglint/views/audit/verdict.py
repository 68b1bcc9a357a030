"""The answer to an audit: the gravest word, one sentence with the reason, and the next step."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from riglint.findings import Audit, FileResult, Finding
from riglint.findings.grouping import Group, grouped
from riglint.records import dataclass
from riglint.rulekit import Signal
from riglint.views.audit.reader import Blocks, blocks
from riglint.views.audit.words import at_the_top, count, counting, touching, unfit

NO_WORD = "LOOK"  # beside a rig that no rule stops: no signal word, and never a word that calls it good
NOT_JUDGED = "NOT JUDGED"  # every report prints it beside the sentence, which doesn't say it again
ORDERS = {
    Signal.DANGER: {
        "fail": "Do not tension.",
        "open": "Do not tension yet.",
        "review": "Look at this before you tension.",
    },
    Signal.WARNING: {
        "fail": "Correct this before anyone walks.",
        "open": "Nobody walks yet.",
        "review": "Look at this before anyone walks.",
    },
    Signal.CAUTION: {
        "fail": "Know this before you walk, and improve it.",
        "open": "Fill this in, so that you know what you walk on.",
        "review": "Look at this before you walk.",
    },
    Signal.NOTICE: {
        "fail": "For the gear list or the club:",
        "open": "For the gear list or the club:",
        "review": "Look at this on site.",
    },
}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one rig, or a whole call, comes to."""

    word: str
    signal: Signal | None  # None where no rule stops it
    sentence: str
    next_step: str
    in_short: str = ""  # for a line among others

    @property
    def order(self) -> tuple[int, bool]:
        """Where it stands among others: the worst first, and what is not judged before what is."""
        return -int(self.signal or 0), self.word != NOT_JUDGED


Answer = Callable[[FileResult, Sequence[Finding]], Verdict]


def verdict_of(result: FileResult, shared: Sequence[Finding] = ()) -> Verdict:
    """Return the answer for one file, with what counts in the shared files that touch it."""
    held = blocks(result)
    if not result.judged:
        return _unjudged(result, held)
    loud = [*held.faults, *grouped(one for one in shared if one.asks is None)]
    blanks = [*held.blanks, *grouped(one for one in shared if one.asks is not None)]
    groups = sorted([*loud, *blanks], key=_first)
    if result.not_judged and (not groups or groups[0].signal < Signal.WARNING):
        return _unjudged(result, held)
    if not groups:
        return _sound(result, held)
    first = groups[0]
    if first.first.asks is not None:
        return _to_fill_in(first, blanks, loud)
    order = ORDERS[first.signal][first.first.kind]
    return Verdict(
        first.signal.name,
        first.signal,
        f"{order} {first.first.message}{_others(groups)}",
        first.do,
    )


def _first(group: Group) -> tuple[int, bool, bool]:
    """Sort by word; of one word faults come first, then fields, then what only counts once a field is filled in."""
    return -group.signal, group.first.kind != "fail", group.first.asks is None


def _others(groups: list[Group]) -> str:
    """Say how many more there are of the same word, and how many of milder ones."""
    same = sum(one.signal == groups[0].signal for one in groups) - 1
    milder = len(groups) - 1 - same
    phrases = [f"{same} more {groups[0].signal.name}"] if same else []
    phrases += [f"{milder} milder"] if milder else []
    return f" ({' and '.join(phrases)} below.)" if phrases else ""


def _to_fill_in(first: Group, blanks: list[Group], loud: list[Group]) -> Verdict:
    fields = sum(len(group.findings) for group in blanks)
    same = sum(len(group.findings) for group in blanks if group.signal == first.signal)
    order = ORDERS[first.signal]["open"]
    values = "1 value is" if fields == 1 else f"{fields} values are"
    hidden = "it" if same == 1 else f"{same} of them" if same < fields else "any of them"
    sentence = f"{order} {values} missing, and {hidden} may hide a {first.signal.name}."
    faults = sum(group.first.kind == "fail" for group in loud)
    beside = [count(faults, "fault")] if faults else []
    beside += [f"{count(len(loud) - faults, 'thing')} to look at"] if faults < len(loud) else []
    sentence += f" {' and '.join(beside)} below." if beside else ""
    return Verdict(first.signal.name, first.signal, sentence, first.do)


def _unjudged(result: FileResult, held: Blocks) -> Verdict:
    first = held.faults[0].first if held.faults else None
    signal = max([Signal.WARNING, *(group.signal for group in (*held.faults, *held.blanks))])
    because = "; ".join(
        f"{count(one.rules, 'rule')} had nothing to work on, because {one.because}"
        for one in result.not_judged
    )
    if first is not None and first.signal >= Signal.WARNING:
        partly = "Some rules could not run. " if result.judged else ""
        return Verdict(NOT_JUDGED, signal, f"{partly}{first.message}", first.do)
    sentence = f"Some rules could not run: {because}." if because else "This file could not be judged."
    return Verdict(NOT_JUDGED, signal, sentence, "Correct what keeps us from judging it, and audit again.")


def _sound(result: FileResult, held: Blocks) -> Verdict:
    if result.kind != "rig":
        words = "No problems found by the rules that judge it without a rig."
        return Verdict(NO_WORD, None, words, "Audit the rigs that use it: only they have forces.")
    judged = len(result.rules.judged) if result.rules is not None else 0
    idle = len(result.rules.not_applicable) if result.rules is not None else 0
    nothing = f"; {idle} more had nothing to judge here" if idle else ""
    looks, checks = sum(len(one.findings) for one in held.looks), len(held.checks)
    still = [f"look at {count(looks, 'thing')} on site"] if looks else []
    still += [f"tick {count(checks, 'check')}" if checks > 1 else "tick one check"] if checks else []
    next_step = " and ".join(still)
    card = " on the card (`riglint card`)" if checks else ""
    return Verdict(
        NO_WORD,
        None,
        f"No problems found by {count(judged, 'rule')}{nothing}.",
        f"Before anyone walks, {next_step}{card}." if still else "Look the rig over on site all the same.",
        _sound_in_short(looks, checks),
    )


def _sound_in_short(looks: int, checks: int) -> str:
    still = [count(looks, "look")] if looks else []
    still += [count(checks, "check")] if checks else []
    return "no problems found" + (f"; {', '.join(still)} on site" if still else "")


def verdicts(audit: Audit, answer: Answer = verdict_of) -> list[tuple[FileResult, Verdict]]:
    """Return the answer for every rig and for every other file that has something to say, worst first.

    Args:
        audit: what was found.
        answer: gives that of one file, from what counts in the shared files that touch it.
    """
    shared = touching(audit)
    found = [
        (result, answer(result, counting(shared, result)))
        for result in audit.files
        if result.kind == "rig" or not result.judged or any(one.counts for one in result.findings)
    ]
    # What keeps other files from being judged comes before them.
    return sorted(found, key=lambda one: (one[1].order, not (one[0].judged or one[0].findings), one[0].path))


def verdict_of_all(audit: Audit, each: list[tuple[FileResult, Verdict]]) -> Verdict:
    """Return the answer for the whole call."""
    if audit.nothing_found or not each:
        return _nothing(audit)
    broken = unfit(audit)
    if broken:
        return Verdict(NOT_JUDGED, max(Signal), broken[0], "Correct that, and audit again.")
    if len(each) == 1:
        return each[0][1]
    result, worst = each[0]
    if worst.signal is None:
        rigs = sum(one.kind == "rig" for one, _ in each)
        sentence = f"No problems found by these rules in {count(rigs, 'rig')}."
        step = "On site, do the looks and checks below. `riglint card RIG` lists them for the tree."
        return Verdict(NO_WORD, None, sentence, step)
    return Verdict(worst.word, worst.signal, _counted(each), f"Begin with {result.path}. {worst.next_step}")


def _counted(each: list[tuple[FileResult, Verdict]]) -> str:
    """Say how many rigs must not be tensioned, walked, and so on, and the same of the other files."""
    rigs = [one.word for result, one in each if result.kind == "rig"]
    others = [one.word for result, one in each if result.kind != "rig"]
    groups = ((rigs, "rig"), (others, "other file" if rigs else "file"))
    return " ".join(f"Of {count(len(words), what)}: {_shares(words)}." for words, what in groups if words)


def _shares(words: list[str]) -> str:
    shares = (
        (NOT_JUDGED, "not judged"),
        (Signal.DANGER.name, "not to tension"),
        (Signal.WARNING.name, "to correct before anyone walks"),
        (Signal.CAUTION.name, "to improve"),
        (Signal.NOTICE.name, "with something for the gear list or the club"),
        (NO_WORD, "with no problems found"),
    )
    return ", ".join(f"{words.count(word)} {what}" for word, what in shares if word in words)


def _nothing(audit: Audit) -> Verdict:
    if audit.nothing_found:
        sentence = "Nothing to audit: no file named here begins with the key riglint."
        return Verdict(
            NOT_JUDGED, Signal.WARNING, sentence, "Name a rig file, or the folder that holds them."
        )
    sentences = at_the_top(audit)
    sentence = sentences[0] if sentences else "No rig was there, and nothing is wrong with the other files."
    return Verdict(NO_WORD, None, sentence, "Audit the rigs that use them: only they have forces.")
