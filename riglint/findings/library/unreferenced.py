"""Judges a spot or a shelf that no rig among the audited files refers to, by all that can be judged without one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from riglint.findings.finding import Finding, Where
from riglint.findings.judging import judge
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.documents.gear import Shelf
from riglint.model.documents.parts import Leg, Part
from riglint.model.documents.rig import Rig
from riglint.model.documents.spot import Spot
from riglint.model.library import Item, Loaded, RigFile
from riglint.model.values.sources import OWN
from riglint.policy import InForce
from riglint.read.document import Document
from riglint.read.yaml_text import read_yaml
from riglint.rulebook import Rulebook
from riglint.rulekit import Signal

NOWHERE = "(no rig)"  # where what a rig would say stands; nothing of it is told
WHY_EMPTY = "A file with nothing in it must not look like a file without faults."
# What lies between an anchor and the webbing, with nothing said of it.
BETWEEN = ("shackle", "webbing_anchor")


def judge_unreferenced(loaded: Loaded, book: Rulebook, on: date, force: InForce) -> list[Finding]:
    """Return what the rules say of a spot or a shelf alone: faults, looks and open questions at its own keys."""
    if loaded.document is None:
        return []
    if isinstance(loaded.model, Spot):
        if not loaded.model.anchors:
            return [_empty(loaded, "names no anchor", "Enter the two anchors at the ends of the line.")]
        return _of_spot(loaded, loaded.model, book, on, force)
    if isinstance(loaded.model, Shelf):
        if not loaded.model.items:
            return [_empty(loaded, "holds no gear", "Enter each piece under the name on its label.")]
        return _of_shelf(loaded, loaded.model, book, on, force)
    return []


def _empty(loaded: Loaded, what: str, do: str) -> Finding:
    message = f"The {loaded.kind} {what}, so nothing in it was judged."
    at = Where(loaded.path, 1, 1, "anchors" if loaded.kind == "spot" else "items")
    rule = "file/empty"
    return Finding(rule, Signal.WARNING, "open", message, WHY_EMPTY, do, at, OWN, rules=(rule,))


def _of_spot(loaded: Loaded, spot: Spot, book: Rulebook, on: date, force: InForce) -> list[Finding]:
    """Put an unsaid line between the anchors, two by two, and keep what is told of the spot."""
    assert loaded.document is not None  # noqa: S101 - for the type checker
    names = list(spot.anchors)
    pairs = [(names[n], names[(n + 1) % len(names)]) for n in range(0, len(names), 2)]
    found: dict[tuple[str, str, str], Finding] = {}
    for first, last in pairs:
        chain = [*_end(spot, first), _part("webbing"), *reversed(_end(spot, last))]
        rig = _rig(chain, spot, loaded.document)
        for one in _judged(rig, book, on, force, loaded.path):
            found.setdefault((one.rule, one.at.key, one.message), one)
    return list(found.values())


def _of_shelf(loaded: Loaded, shelf: Shelf, book: Rulebook, on: date, force: InForce) -> list[Finding]:
    """Let a rig name every piece, so that each is in use, and ask the rules that look at gear alone."""
    assert loaded.document is not None  # noqa: S101 - for the type checker
    items = {name: Item(name, gear, loaded.document, ("items", name)) for name, gear in shelf.items.items()}
    rig = replace(_rig([_part("shackle", gear=name) for name in items], None, None), items=items)
    rules = {name: rule for name, rule in book.rules.items() if rule.each.shared}
    return _judged(rig, replace(book, rules=rules), on, force, loaded.path)


def _judged(rig: RigFile, book: Rulebook, on: date, force: InForce, path: str) -> list[Finding]:
    """Return what is told of one file, at the consequence that is known from it."""
    loads = Loads(build(rig), force.values, on).at_the_class_that_is_known()
    judged = judge(rig, book, on, force, loads, with_remedies=False)
    here = [one for one in judged.findings if one.at.path == path or one.crashed]
    return [replace(one, rigs=(), part_words=None, at=replace(one.at, part=None)) for one in here]


def _rig(chain: list[Part], spot: Spot | None, document: Document | None) -> RigFile:
    nowhere, _ = read_yaml(b"riglint: rig/1", NOWHERE)
    if nowhere is None:
        raise AssertionError("a text that can be read cannot be read")
    rig = Rig.model_construct(riglint="rig/1", title="", chain=chain)
    key = () if document is not None else ("spot",)
    return RigFile(rig, nowhere, spot, document or nowhere, key, {}, ())


def _end(spot: Spot, name: str) -> list[Part]:
    """Return an end at an anchor: to each bolt a leg, round everything else a sling, with nothing said of them."""
    anchor = spot.anchors[name]
    legs = [Leg.model_construct(to=point) for point in anchor.points]
    holds = _part("legs", legs=legs) if legs else _part("sling")
    return [_part("anchor", at=name), holds, *(_part(kind) for kind in BETWEEN)]


def _part(kind: str, **keys: Any) -> Part:
    return Part.model_construct(part=kind, **keys)
