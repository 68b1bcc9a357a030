"""The sheet's inputs: which of them matters most, and the ± of the results that comes of theirs."""

from __future__ import annotations

from riglint.loads.what_if.sensitivity import Ranking, Sensitivity
from riglint.loads.what_if.typical_errors import SOURCE as ASSUMED
from riglint.loads.what_if.typical_errors import TypicalError
from riglint.model.values.sources import Source
from riglint.views.blocks import Block, Column, Note, Section, Table, Worked, WorkedInput, sourced
from riglint.views.figures import fixed

PROPAGATION = Source(
    "law of propagation of uncertainty, JCGM 100:2008, 5.1.2, equation 10", "standard", ("jcgm_100",)
)
TITLE = "What matters most"
EFFECTS = {  # of each result: its column, its unit, what one of its unit is in SI
    "peak_n": ("peak T", "kN", 1000.0, "T", "greatest peak tension"),
    "ratio": ("ratio", "", 1.0, "r", "least ratio"),
    "clearance_m": ("clear", "m", 1.0, "c", "least clearance"),
}
STATED = (
    "what each ± adds to a result, half the difference between both of its ends, all else as written; "
    "%: its share of the square of the whole ±; greatest on the least ratio first"
)
NONE = "No input of this rig states a ±, so nothing is known of the ± of a result."
GUIDE = (
    "For guidance only, nobody measured it: what the error named would add where no ± is stated. "
    "It enters no ± above and no verdict."
)


def inputs_section(ranked: Ranking) -> Section | None:
    """Return what the ± of the inputs does to the results, and what an error of the others would do."""
    here = ranked.results
    if here.peak_n is None and here.ratio is None and here.clearance_m is None:
        return None
    blocks: list[Block] = []
    if ranked.stated:
        blocks.append(Table(_columns(shares=True), tuple(_row(ranked, one) for one in ranked.stated), STATED))
        blocks += _together(ranked)
    else:
        blocks.append(Note("±", NONE))
    if ranked.left_out:
        names = ", ".join(one.at.key_text for one in ranked.left_out)
        blocks.append(Note("left out", f"too many to weigh, taken as exact: {names}"))
    if ranked.assumed:
        exact = ", ".join(one.input.at.key_text for one in ranked.assumed)
        blocks.append(Note("exact", f"taken as exact, since no ± stands beside it: {exact}"))
        rows = tuple(_assumed_row(one) for one in ranked.assumed)
        blocks.append(Table(_columns(shares=False), rows, f"{GUIDE} {sourced(ASSUMED)}"))
    return Section(TITLE, tuple(blocks))


def _columns(*, shares: bool) -> tuple[Column, ...]:
    found = [
        Column(
            "input" if shares else "for guidance",
            "",
            "input and its ±" if shares else "for guidance: input, moved by",
        )
    ]
    for short, unit, _, _, words in EFFECTS.values():
        found.append(Column(short, unit, words))
        if shares:
            found.append(Column("%", "", "its share, %"))
    return tuple(found)


def _row(ranked: Ranking, one: Sensitivity) -> tuple[str, ...]:
    cells = [f"{one.input.at.key_text}, {one.input.text}"]
    for name in EFFECTS:
        share = ranked.share(one, name)
        cells += [_effect(one, name, 4), fixed(None if share is None else share * 100.0, 0)]
    return tuple(cells)


def _assumed_row(one: Sensitivity) -> tuple[str, ...]:
    assert isinstance(one.input, TypicalError)  # noqa: S101 - for the type checker
    name = f"{one.input.at.key_text}, {one.input.text}, {one.input.by} more"
    return (name, *(_effect(one, result, 3) for result in EFFECTS))


def _effect(one: Sensitivity, result: str, digits: int) -> str:
    value = getattr(one, result)
    if value is None:
        return "–"
    text = f"{value / EFFECTS[result][2]:+.{digits}f}"
    return "0" if float(text) == 0.0 else text


def _together(ranked: Ranking) -> list[Block]:
    """Return the ± of each result: the root of the sum of the squares of what each input adds."""
    here, found = ranked.results, []
    governs = {"peak_n": here.peak_state, "ratio": here.ratio_part, "clearance_m": here.clearance_state}
    for name, (_, unit, si, symbol, words) in EFFECTS.items():
        value, spread = getattr(here, name), ranked.plus_minus(name)
        if value is None or spread is None:
            continue
        added = [abs(getattr(one, name)) / si for one in ranked.stated if getattr(one, name) is not None]
        working = "√(" + " + ".join(f"{one:.5f}²" for one in added) + ")"
        inputs = (
            WorkedInput(symbol, value / si, unit, f"{words}, {governs[name]}"),
            WorkedInput("inputs", len(added), "", "that state a ±, taken as independent of each other"),
        )
        label = {"peak_n": "peak", "ratio": "ratio", "clearance_m": "clearance"}[name]
        text = f"± of the {words}"
        found.append(
            Worked(label, text, f"u({symbol})", "√Σuᵢ²", working, spread / si, unit, PROPAGATION, inputs, 4)
        )
    return list(found)
