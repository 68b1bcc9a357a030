"""The chain as a drawing: every part from anchor to anchor with force, strength, ratio and its gravest finding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from riglint.findings import Finding
from riglint.loadpath import SPANNING, LoadPath, Placed
from riglint.loads import Loads, PartLoad, State
from riglint.loads.inputs import known
from riglint.read.problems import key_text
from riglint.reports.drawing.signs import HIGH, sign_svg
from riglint.reports.drawing.svg import GREY, INK, NARROW, RED, figure, line, text
from riglint.reports.layout.spans import number
from riglint.reports.sheet.parts import states_for, worst_of
from riglint.rulekit import rounded

INDENT, FIRST = 16.0, 14.0
TALL, SHORT, BAND = 40.0, 26.0, 50.0  # heights of rows: with figures, without, of webbing
WORDS, WORDS_BY_SIGN, FIGURES = 46, 30, 52  # letters that fit
CAPTION = (
    "From anchor to anchor, not to scale. Under each part: its force in the state that leaves it the least, its "
    "strength in place, strength over force, and the ratio asked. Beside it: its gravest finding; "
    "a dashed frame means to look at on site."
)


@dataclass(slots=True)
class ChainRow:
    """One row of the drawing."""

    names: tuple[str, ...]  # what findings may call it
    words: str
    told: str
    depth: int = 0
    shape: str = "part"
    gear: str | None = None
    joined: bool = False  # whether it hangs on the row above it, as a part further down the same leg
    short: bool = False  # whether its ratio falls short of what is asked
    finding: Finding | None = None

    @property
    def height(self) -> float:
        """Height of the row."""
        if self.shape == "band":
            return BAND
        return TALL if self.told else SHORT


def chain_drawings(loads: Loads, findings: Sequence[Finding], name: str) -> list[str]:
    """Return the main line and every backup with a chain of its own.

    Args:
        loads: the rig.
        findings: what was found in the rig and in the files that it refers to.
        name: what the drawings' names begin with, once a page.
    """
    main = known(lambda: loads.parts) or []
    states = {id(load): states_for(load, loads) for load in main}
    made = [_drawing(loads, loads.path, main, states, findings=findings, names=(f"{name}-chain", "Chain"))]
    for backup in loads.backups:
        parts = known(backup.parts) or []
        catch = known(lambda backup=backup: loads.catch(backup).state)  # type: ignore[misc]
        caught = {id(load): [catch] if catch else [] for load in parts}
        title = f"Chain of {backup.id}, {backup.entry.kind}"
        names = (f"{name}-backup{backup.number}", title)
        made.append(_drawing(loads, backup.path, parts, caught, findings=findings, names=names))
    return made


def _drawing(
    loads: Loads,
    path: LoadPath,
    parts: Sequence[PartLoad],
    states: dict[int, list[State]],
    *,
    findings: Sequence[Finding],
    names: tuple[str, str],
) -> str:
    rows = [row for placed in path.parts for row in _rows(loads, placed, parts, states)]
    for finding in findings:
        _give(rows, finding)
    marks: list[str] = []
    top = 8.0
    for n, row in enumerate(rows):
        marks += _marks(row, top, first=n == 0, last=n == len(rows) - 1)
        top += row.height
    told = "; ".join(_said(row) for row in rows)
    name, title = names
    return figure(name, title, told, marks, height=top + 4, caption=CAPTION, width=NARROW)


# What the rows say


def _rows(
    loads: Loads, placed: Placed, parts: Sequence[PartLoad], states: dict[int, list[State]]
) -> list[ChainRow]:
    """Return a part, and below it the pieces that it is made of."""
    own = [load for load in parts if load.at.key == placed.key]
    inside = [
        load for load in parts if load.at.key != placed.key and load.at.key[: len(placed.key)] == placed.key
    ]
    names = (placed.id, key_text(placed.key))
    shape = "anchor" if placed.part.part == "anchor" else "band" if placed.part.part in SPANNING else "part"
    below = [_row(load, loads, states, 1) for load in inside]
    _say_legs(placed, below)
    if not own:
        shape = "idle" if placed.part.part == "protector" else shape
        return [ChainRow(names, _words(placed), _beside(placed), shape=shape), *below]
    first, *more = (_row(load, loads, states, 0) for load in own)
    first.names, first.shape = names, shape
    return [first, *more, *below]


def _say_legs(placed: Placed, rows: list[ChainRow]) -> None:
    """Say of the first part of each leg where the leg goes, and hang the others on it."""
    for m, leg in enumerate(placed.part.legs or []):
        prefix = f"{key_text(placed.key)}.legs[{m}]."
        for n, row in enumerate(one for one in rows if one.names[1].startswith(prefix)):
            row.joined = n > 0
            if n == 0 and leg.to:
                row.words += f" to {leg.to}"


def _words(placed: Placed) -> str:
    if placed.part.part == "anchor":
        return f"anchor {placed.part.at or ''}".strip()
    return placed.words


def _beside(placed: Placed) -> str:
    part = placed.part
    if part.part == "anchor":
        return f"{number(part.height.si)} m above the ground" if part.height else "height not said"
    if part.part == "protector":
        return "carries none of the line"
    if part.part == "haul" and part.strands:
        return f"{part.strands} strands on the moving block" + ("" if part.stays else "; comes off")
    if part.part == "legs":
        return f"{len(part.legs or [])} legs, share {part.share or 'not said'}"
    return "force or strength not known"


def _row(load: PartLoad, loads: Loads, states: dict[int, list[State]], depth: int) -> ChainRow:
    strength, worst = known(lambda: load.strength), worst_of(load, states[id(load)])
    asked = load.required_at(loads.consequence.word)
    row = ChainRow(
        (load.id, key_text(load.at.key)), load.words, "force or strength not known", depth, gear=load.gear
    )
    if strength is None or worst is None:
        return row
    force = number(worst.force_n / 1000.0)
    if strength.no_rating:
        row.told, row.short = f"{force} kN; nobody rates it as it lies", True
        return row
    row.short = asked is not None and worst.ratio < asked
    wanted = f"asked {number(asked)}" if asked is not None else "no ratio asked"
    row.told = f"{force} of {number(strength.strength_n / 1000.0)} kN, ratio {rounded(worst.ratio, 'down')}, {wanted}"
    return row


def _said(row: ChainRow) -> str:
    short = ", short" if row.short else ""
    found = f", {row.finding.signal.name}: {row.finding.message}" if row.finding else ""
    return f"{row.words}: {row.told}{short}{found}"


# Which finding stands beside which row


def _give(rows: list[ChainRow], finding: Finding) -> None:
    """Put a finding beside the row that it concerns, where none graver stands."""
    row = _row_of(rows, finding)
    if row is not None and (row.finding is None or _gravity(finding) > _gravity(row.finding)):
        row.finding = finding


def _gravity(finding: Finding) -> tuple[int, bool]:
    return finding.signal, finding.kind != "review"


def _row_of(rows: list[ChainRow], finding: Finding) -> ChainRow | None:
    """Return the row whose name goes furthest into the place of a finding; of two the one called as it says."""
    gear = finding.at.key.split(".")[1] if finding.at.key.startswith("items.") else None
    if gear is not None and finding.at.part is None:
        return next((row for row in rows if row.gear == gear), None)
    said = {finding.at.key, finding.at.part or ""}
    found: list[tuple[int, bool, ChainRow]] = []
    for row in rows:
        lengths = [len(name) for name in row.names for place in said if _below(place, name)]
        if lengths:
            found.append((max(lengths), row.words == finding.part_words, row))
    return max(found, key=lambda one: one[:2], default=(0, False, None))[2]


def _below(place: str, name: str) -> bool:
    return place == name or place.startswith((f"{name}.", f"{name}["))


# How it is drawn


def _marks(row: ChainRow, top: float, *, first: bool, last: bool) -> list[str]:
    x = FIRST
    middle = top + 9.0
    above, below = (middle if first else top), (middle if last else top + row.height)
    marks = [line(f"{x},{above:.1f} {x},{below:.1f}", INK, 6 if row.shape == "band" else 2)]
    left = x + row.depth * INDENT
    if row.joined:
        marks.append(line(f"{left},{middle - TALL:.1f} {left},{middle:.1f}", INK, 1.5))
    elif row.depth:
        marks.append(line(f"{x},{middle:.1f} {left},{middle:.1f}", INK, 1.5))
    marks.append(_shape(row.shape, left, middle))
    letters = WORDS if row.finding is None else WORDS_BY_SIGN
    colour = RED if row.short else GREY
    marks.append(text(left + 14, top + 13, cut(row.words, letters - 2 * row.depth), bold=True, halo=False))
    if row.told:
        told = row.told + (" – short" if row.short else "")
        told = cut(told, FIGURES - 3 * row.depth)
        marks.append(text(left + 14, top + 28, told, colour=colour, bold=row.short, halo=False))
    if row.finding is not None:
        marks += sign_svg(NARROW - 2, top + 13 - HIGH + 4, row.finding)
    return marks


def _shape(shape: str, x: float, y: float) -> str:
    if shape == "anchor":
        return f'<rect x="{x - 8:.1f}" y="{y - 8:.1f}" width="16" height="16" fill="{INK}"/>'
    if shape == "band":
        return ""
    fill = "#ffffff" if shape == "idle" else INK
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4.5" fill="{fill}" stroke="{INK}" stroke-width="1.5"/>'


def cut(words: str, letters: int) -> str:
    """Return words with their end left out where they would run off the drawing."""
    return words if len(words) <= letters else words[: letters - 1].rstrip() + "…"
