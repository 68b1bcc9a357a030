"""The chain from anchor to anchor: a row for each part, with its figures and its gravest finding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from riglint.findings import Finding
from riglint.loadpath import SPANNING, LoadPath, Placed
from riglint.loads import Loads
from riglint.read.problems import key_text
from riglint.records import dataclass
from riglint.rulekit import rounded
from riglint.views.drawing.goes import Goes, what_goes
from riglint.views.figures import number
from riglint.views.judged_parts import JudgedPart, caught_parts, main_parts

Shape = Literal["anchor", "band", "part", "idle"]


@dataclass(frozen=True, slots=True)
class Link:
    """One part of a chain, or one piece of a part."""

    names: tuple[str, ...]  # what findings may call it
    words: str
    told: str
    depth: int = 0
    shape: Shape = "part"
    gear: str | None = None
    joined: bool = False  # whether it hangs on the row above it, as a part further down the same leg
    short: bool = False  # whether its ratio falls short of what is asked
    finding: Finding | None = None
    goes: tuple[str, ...] = ()  # what catches when it goes, and how well


@dataclass(frozen=True, slots=True)
class Chain:
    """The main line, or a backup with a chain of its own."""

    name: str
    title: str
    links: tuple[Link, ...]


def chains_of(loads: Loads, findings: Sequence[Finding]) -> tuple[Chain, ...]:
    """Return the main line and every backup with a chain of its own.

    Args:
        loads: the rig.
        findings: what was found in the rig and in the files that it refers to.
    """
    goes = what_goes(loads)
    made = [
        Chain("chain", "Chain", _with_goes(_links(loads.path, main_parts(loads), findings), goes, "chain"))
    ]
    for backup in loads.backups:
        title = f"Chain of {backup.id}, {backup.entry.kind}"
        links = _links(backup.path, caught_parts(loads, backup), findings)
        links = _with_goes(links, goes, backup.id)
        made.append(Chain(f"backup{backup.number}", title, links))
    return tuple(made)


def _links(path: LoadPath, parts: Sequence[JudgedPart], findings: Sequence[Finding]) -> tuple[Link, ...]:
    links = [link for placed in path.parts for link in _part(placed, parts)]
    for finding in findings:
        _give(links, finding)
    return tuple(links)


def _with_goes(links: tuple[Link, ...], goes: Sequence[Goes], line: str) -> tuple[Link, ...]:
    """Return the links of one line, each with what is left when it goes."""
    found = list(links)
    for one in goes:
        n = _beside_which(found, one, line)
        if n is not None and one.words not in found[n].goes:
            found[n] = replace(found[n], goes=(*found[n].goes, one.words))
    return tuple(found)


def _beside_which(links: Sequence[Link], goes: Goes, line: str) -> int | None:
    """Return the number of the link that a row stands beside: the innermost that its place lies in."""
    if goes.key == line:
        return 0
    inside = [
        (len(name), n)
        for n, link in enumerate(links)
        for name in link.names
        if name.startswith(line) and goes.key.startswith(name)
    ]
    if inside:
        return max(inside)[1]
    return next((n for n, link in enumerate(links) if goes.part and goes.part in link.names), None)


# What the rows say


def _part(placed: Placed, parts: Sequence[JudgedPart]) -> list[Link]:
    """Return a part, and below it the pieces that it is made of."""
    key = placed.key
    own = [one for one in parts if one.load.at.key == key]
    inside = [one for one in parts if one.load.at.key != key and one.load.at.key[: len(key)] == key]
    names = (placed.id, key_text(placed.key))
    shape = _shape(placed, bears=bool(own))
    below = _with_legs(placed, [_link(one, 1) for one in inside])
    if not own:
        return [Link(names, _words(placed), _beside(placed), shape=shape), *below]
    first, *more = (_link(one, 0) for one in own)
    return [replace(first, names=names, shape=shape), *more, *below]


def _shape(placed: Placed, *, bears: bool) -> Shape:
    if placed.part.part == "anchor":
        return "anchor"
    if placed.part.part in SPANNING:
        return "band"
    return "idle" if placed.part.part == "protector" and not bears else "part"


def _with_legs(placed: Placed, links: list[Link]) -> list[Link]:
    """Return pieces of which the first of each leg says where the leg goes, the others hanging on it."""
    found = list(links)
    for m, leg in enumerate(placed.part.legs or []):
        prefix = f"{key_text(placed.key)}.legs[{m}]."
        inside = [n for n, one in enumerate(found) if one.names[1].startswith(prefix)]
        for n in inside[:1]:
            found[n] = replace(found[n], words=found[n].words + (f" to {leg.to}" if leg.to else ""))
        for n in inside[1:]:
            found[n] = replace(found[n], joined=True)
    return found


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


def _link(part: JudgedPart, depth: int) -> Link:
    load, strength, worst, asked = part.load, part.strength, part.worst, part.asked
    names = (load.id, key_text(load.at.key))
    if strength is None or worst is None:
        return Link(names, load.words, "force or strength not known", depth, gear=load.gear)
    force = number(worst.force_n / 1000.0)
    if strength.no_rating:
        told = f"{force} kN; nobody rates it as it lies"
        return Link(names, load.words, told, depth, gear=load.gear, short=True)
    wanted = f"asked {number(asked)}" if asked is not None else "no ratio asked"
    held = f"{number(strength.strength_n / 1000.0)} kN"
    told = f"{force} of {held}, ratio {rounded(worst.ratio, 'down')}, {wanted}"
    short = asked is not None and worst.ratio < asked
    return Link(names, load.words, told, depth, gear=load.gear, short=short)


# Which finding stands beside which part


def _give(links: list[Link], finding: Finding) -> None:
    """Put a finding beside the part that it concerns, where none graver stands."""
    n = _place(links, finding)
    if n is None:
        return
    other = links[n].finding
    if other is None or _gravity(finding) > _gravity(other):
        links[n] = replace(links[n], finding=finding)


def _gravity(finding: Finding) -> tuple[int, bool]:
    return finding.signal, finding.kind != "review"


def _place(links: list[Link], finding: Finding) -> int | None:
    """Return where the part stands whose name goes furthest into the place of a finding.

    Of two the one called as the finding says.
    """
    gear = finding.at.key.split(".")[1] if finding.at.key.startswith("items.") else None
    if gear is not None and finding.at.part is None:
        return next((n for n, link in enumerate(links) if link.gear == gear), None)
    said = {finding.at.key, finding.at.part or ""}
    best: tuple[int, bool] = (0, False)
    found = None
    for n, link in enumerate(links):
        lengths = [len(name) for name in link.names for place in said if _below(place, name)]
        fits = (max(lengths, default=0), link.words == finding.part_words)
        if lengths and (found is None or fits > best):
            best, found = fits, n
    return found


def _below(place: str, name: str) -> bool:
    return place == name or place.startswith((f"{name}.", f"{name}["))
