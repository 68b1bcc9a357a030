"""Which pieces of a gear list would do in each place of a rig, as text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from riglint.findings.variation.choosing import Choosing
from riglint.findings.variation.least_piece import LeastPiece, LookFor
from riglint.findings.variation.trying import Candidate, Choice, WholeSet
from riglint.reports.audit.text import policy_lines
from riglint.reports.layout.spans import Line, labelled, paragraph, plain
from riglint.rulekit import first_up
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import CAUTION_TEXT, sealed
from riglint.views.figures import number

HOW = (
    "Each piece stands in its place once, all others stay, and every rule judges the rig again. Pieces that are alike "
    "share a row. The ratio is strength in place to the worst load there."
)
KEYS = {"mbs": "breaking strength (`mbs`)", "wll": "rated load (`wll`)"}
MOST_NAMES = 6  # of alike pieces in a row


def choose_text(found: Choosing, width: int) -> list[Line]:
    """Return what would do in each place, laid out for a width."""
    lines: list[Line] = [*paragraph(f"Gear for {found.title}", width, look="bold")]
    lines += paragraph(f"{found.path}, as of {found.on}, {found.judged} rigs judged", width)
    for sentence in top_of(found.force):
        lines += paragraph(sentence, width, look="bold")
    lines += [plain(""), *paragraph(HOW, width)]
    for one in found.apart:
        told = f"{one.signal.name} whatever you choose: {one.message} ({one.rule})"
        lines += [plain(""), *labelled("stands", told, width, indent=0)]
    for choice in found.choices:
        lines += [plain(""), *_choice(choice, width)]
    for one_set in found.sets:
        lines += [plain(""), *_whole(one_set, width)]
    lines += _look_for(found.look_for, width)
    lines += [plain(""), *paragraph(f"Judged by {sealed(found.seal)}.", width)]
    return [*lines, *policy_lines(found.force, width), *paragraph(CAUTION_TEXT, width)]


def _choice(choice: Choice, width: int) -> Iterator[Line]:
    yield from paragraph(
        f"{first_up(choice.words)} ({choice.place.part}), now {choice.place.name}", width, look="bold"
    )
    for one in choice.tried:
        yield from labelled("would do" if one.does else "short", _row(one), width)
    if choice.not_tried:
        pieces = "1 piece" if choice.not_tried == 1 else f"{choice.not_tried} pieces"
        yield from labelled("not tried", f"{pieces}: too many kinds to judge in reasonable time", width)


def _row(one: Candidate) -> str:
    names = ", ".join(one.names[:MOST_NAMES])
    more = f" and {len(one.names) - MOST_NAMES} more" if len(one.names) > MOST_NAMES else ""
    ratio = f", holds {one.ratio:.2f} × its worst load" if one.ratio is not None else ""
    told = f"{names}{more}{ratio}"
    if one.against:
        first = max(one.against, key=lambda each: each.signal)
        rest = f" ({len(one.against) - 1} more)" if len(one.against) > 1 else ""
        told += f". {first.signal.name}: {first.message} {first.do}{rest}"
    told += "".join(f". {', '.join(names)} taken by {line}" for line, names in _by_line(one.taken))
    return told + _perhaps(one.perhaps)


def _by_line(taken: Mapping[str, str]) -> Iterable[tuple[str, list[str]]]:
    by_line: dict[str, list[str]] = {}
    for name, line in taken.items():
        by_line.setdefault(line, []).append(name)
    return by_line.items()


def _perhaps(perhaps: Mapping[str, str]) -> str:
    """Say which pieces may be in use: two lines meet on a day, unless both files say that they don't."""
    return "".join(
        f". {', '.join(names)} may be in use: {line} has {'it' if len(names) == 1 else 'them'}, and not both files "
        "say when the line is up"
        for line, names in _by_line(perhaps)
    )


def _look_for(found: LookFor, width: int) -> Iterator[Line]:
    """Yield what to look for where no whole set passes, and how it was found."""
    if not found.judged:
        return
    yield plain("")
    yield from paragraph("What to look for", width, look="bold")
    for one in found.pieces:
        yield from labelled("look for", _piece(one), width)
    if found.against:
        first = max(found.against, key=lambda each: each.signal)
        told = f"Stronger or longer pieces don't help. What stands then: {first.message} {first.do}"
        yield from labelled("not found", told, width)
    yield from paragraph(
        f"Found by trying: every rule judged {found.judged} more rigs, with stronger and longer pieces in these "
        f"places, all at once. {(LEAST if found.pieces else '') if found.is_least else BOUND}",
        width,
    )


LEAST = "With less of any (0.5 kN, 0.1 m) a rule says WARNING or DANGER. A CAUTION may still advise more."
BOUND = "There the search stopped, so less may do."


def _piece(one: LeastPiece) -> str:
    told = []
    if one.strength_n is not None:
        told.append(f"{KEYS[one.key]} of at least {number(one.strength_n / 1000.0, 4)} kN")
    if one.length_m is not None:
        told.append(f"length of at least {number(one.length_m, 4)} m")
    return f"{first_up(one.words)}: a piece like {one.like} with a {' and a '.join(told)}"


def _whole(one: WholeSet, width: int) -> Iterator[Line]:
    if one.names is None:
        told = "No set of these pieces passes every rule."
        if one.against:
            first = max(one.against, key=lambda each: each.signal)
            told += f" Nearest: {first.message} {first.do}"
        yield from labelled(one.words, told, width, indent=0)
        return
    told = "; ".join(f"{words}: {name}" for words, name in one.names) + _perhaps(one.perhaps)
    yield from labelled(one.words, told, width, indent=0)
