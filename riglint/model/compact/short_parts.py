"""Parts written short: a piece of gear by its name alone, `{gear: SH-1, pins: true}`, or a kit.

They are written out before anything else looks at a rig. Where the kinds of gear are not known, a stand-in takes
the place of what cannot be told, and the rig is not judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.model.changed import value_at
from riglint.model.compact.kits import Kit, OnHand, holds_itself
from riglint.model.compact.part_lists import part_lists
from riglint.model.compact.spliced import WrittenOut, spliced
from riglint.model.documents.kind_check import a_kind
from riglint.model.sentences import Key
from riglint.model.vocabulary import kinds
from riglint.read.document import Document, Origin, Plain
from riglint.read.problems import Problem, a_run_without_numbers, key_text, odd_letters, shown
from riglint.read.spelling import nearest

STAND_IN = {"part": Plain("ring")}
MOST_OF_KITS = 1_000  # parts of one rig that come out of kits; kits that call kits can come to billions
MOST_KITS = 100  # kits in kits that a tick of a call reaches into
NEEDED: dict[str, Any] = {"at": Plain("-"), "legs": []}


def written_out(document: Document, on_hand: OnHand | None) -> tuple[Document, list[Problem]]:
    """Return a document with every short part written out, and what is wrong with them.

    Args:
        document: a rig, or a gear list with kits.
        on_hand: what the rig's gear lists hold; None where that is not asked.
    """
    problems: list[Problem] = []
    of_kits = 0
    while key := next(_with_short_parts(document), None):
        writer = _ShortWriter(document, on_hand, key, problems, of_kits)
        document = spliced(document, key, list(writer.entries()))
        of_kits = writer.of_kits
    return document, problems


def _with_short_parts(document: Document) -> Iterator[Key]:
    for key in part_lists(document.data):
        if key[-1] != "legs" and any(map(_is_short, value_at(document.data, key))):
            yield key


def _is_short(part: Any) -> bool:
    if isinstance(part, dict):
        told = any(part.get(key) is not None for key in kinds.TELLING)
        return "kit" in part or ("part" not in part and told)
    return isinstance(part, str)


class _ShortWriter:
    """Writes out the parts of one list."""

    def __init__(
        self, document: Document, on_hand: OnHand | None, key: Key, problems: list[Problem], of_kits: int
    ) -> None:
        self.document, self.key, self.problems = document, key, problems
        self.of_kits = of_kits  # parts so far
        self.on_hand = on_hand or OnHand(whole=False)
        self.in_kit = "kits" in key[:3:2]  # of a gear list, or of a gear list inside a rig

    def entries(self) -> Iterator[WrittenOut]:
        """Yield the parts that the list stands for."""
        for n, part in enumerate(value_at(self.document.data, self.key)):
            if not _is_short(part):
                yield WrittenOut(part, n)
            elif isinstance(part, dict) and "kit" in part:
                yield from self.of_kit(n, part)
            else:
                whole = part if isinstance(part, dict) else {"gear": part}
                told = self.part_of((n, "gear") if isinstance(part, dict) else (n,), whole)
                yield WrittenOut({"part": told, **whole} if told else STAND_IN, n)

    def part_of(self, at: Key, part: dict[str, Any]) -> str | None:
        """Return which part a piece of gear or a place is; None where that is wrong."""
        for key, told in (("at", "anchor"), ("legs", "legs")):
            if part.get(key) is not None:
                return Plain(told)
        name, kind = part["gear"], self.on_hand.gear.get(str(part["gear"]))
        if kind in kinds.PART_OF_GEAR:
            return Plain(kinds.PART_OF_GEAR[kind])
        if kind is not None:
            self.wrong(
                at,
                f"{shown(str(name))} is {a_kind(kind)}, which can be several parts.",
                f"Say which, such as {{part: sling, gear: {name}}}.",
            )
        elif self.on_hand.whole:
            self.unknown(at, str(name))
        return None if kind is not None or self.on_hand.whole else _any_that_takes(part)

    def unknown(self, at: Key, name: str) -> None:
        """Note that a name alone is in no gear list."""
        if name in self.on_hand.kits:
            self.wrong(at, f"{shown(name)} is a kit, not a piece of gear.", f"Write {{kit: {name}}}.")
            return
        do = a_run_without_numbers(name, self.on_hand.gear)
        guess = None if do else nearest(name, self.on_hand.gear)
        if guess:
            do = f"Write the nearest name there, {guess}, or add {shown(name)} if it is another piece."
            do += odd_letters(name, guess)
        do = do or "Add it to a gear list, or write the part out: {part: …}."
        self.wrong(at, f"{shown(name)} is in no gear list (`shelf`) of this rig.", do, instead=guess)

    def of_kit(self, n: int, call: dict[str, Any]) -> Iterator[WrittenOut]:
        """Yield the parts of a kit, with what its call adds."""
        own = {key: value for key, value in call.items() if key not in {"kit", "reversed"}}
        kit = self.called(n, call)
        if kit is None or self.too_many(n, kit):
            yield WrittenOut(_filled_up(own), n)
            return
        ticked: dict[str, Any] = {}
        if len(kit.parts) != 1:
            ticked = {
                key: own.pop(key)
                for key in [*own]
                if any(self.takes(one, key, own[key]) for one in kit.parts)
            }
        if own and len(kit.parts) != 1:
            said = ", ".join(own)
            message = f"This kit has {len(kit.parts)} parts, so it can't tell which of them {said} is for."
            self.wrong((n, next(iter(own))), message, "Write it in the kit, or write the parts out.")
            own = {}
        parts = list(enumerate(kit.parts))
        place = self.document.place((*self.key, n))
        for m, part in reversed(parts) if call.get("reversed") == "true" else parts:
            origin = Origin(kit.document, (*kit.key, m), place, str(call["kit"]))
            more = own | {key: value for key, value in ticked.items() if self.takes(part, key, value)}
            whole = {"gear": part} if more and isinstance(part, str) else part
            yield WrittenOut(_merged(whole, more), n, origin, frozenset(more))

    def takes(self, part: Any, key: str, value: Any, seen: set[str] | None = None) -> bool:
        """Whether a part of a kit takes what its call says of what is looked at on site; of a kit, any part of it."""
        seen = set() if seen is None else seen  # kits on the way, each looked at once
        whole = part if isinstance(part, dict) else {"gear": part}
        if isinstance(called := whole.get("kit"), str):
            inside = self.on_hand.kits.get(called)
            if inside is None or called in seen or len(seen) > MOST_KITS:
                return False
            seen.add(called)
            return any(self.takes(one, key, value, seen) for one in inside.parts[:MOST_OF_KITS])
        kind = self.on_hand.gear.get(str(whole.get("gear")), "")
        name = str(whole.get("part") or kinds.PART_OF_GEAR.get(kind, ""))
        if name not in kinds.PART or key not in kinds.PART[name].takes:
            return False
        return key in kinds.TICKED or (
            key in kinds.TICKED_INSIDE and name == "haul" and isinstance(value, dict)
        )

    def too_many(self, n: int, kit: Kit) -> bool:
        """Whether the kits of a rig come to more parts than any line has; note it once."""
        before, self.of_kits = self.of_kits, self.of_kits + len(kit.parts)
        if before <= MOST_OF_KITS < self.of_kits:
            message = f"The kits of this rig come to more than {MOST_OF_KITS} parts."
            self.wrong((n, "kit"), message, "Let kits call fewer kits, or write the parts out.")
        return self.of_kits > MOST_OF_KITS

    def called(self, n: int, call: dict[str, Any]) -> Kit | None:
        """Return the kit that is called, or note why it cannot be."""
        if "part" in call:
            self.wrong((n, "part"), "A kit has its own parts, so it takes no part.", "Leave part out here.")
            return None
        turned = call.get("reversed")
        if turned is not None and not (isinstance(turned, Plain) and turned in {"true", "false"}):
            said = f"Expected true or false, found {shown(str(turned))}."
            self.wrong((n, "reversed"), said, "Write true if the kit runs the other way here.", "file/value")
        name = call["kit"]
        if not isinstance(name, str):
            said = "Expected the name of a kit of a gear list (`shelf`)."
            self.wrong((n, "kit"), said, "Write such as {kit: tree bag}.", "file/value")
            return None
        kit = self.on_hand.kits.get(name)
        if self.in_kit or (not self.on_hand.whole and kit is None):
            return None
        if name in self.on_hand.twice:
            message = f"Two gear lists (`shelf`) have a kit {shown(name)}, so nobody knows which is meant."
            self.wrong((n, "kit"), message, "Give each kit a name of its own.", "file/duplicate")
        elif name in self.on_hand.endless:
            self.wrong((n, "kit"), *holds_itself(name))
        elif kit is None:
            self.no_kit(n, name)
        return kit

    def no_kit(self, n: int, name: str) -> None:
        """Note that no gear list has a kit of that name."""
        if name in self.on_hand.gear:
            kind = a_kind(self.on_hand.gear[name])
            self.wrong(
                (n, "kit"), f"{shown(name)} is {kind}, not a kit.", f"Write {name} alone, or a kit's name."
            )
            return
        guess = nearest(name, self.on_hand.kits)
        has = f"The kits there are {', '.join(self.on_hand.kits)}." if self.on_hand.kits else ""
        do = f"Write {guess}, if that is meant. {has}" if guess else has or "Add `kits` to a gear list."
        message = f"{shown(name)} is no kit of this rig's gear lists (`shelf`)."
        self.wrong((n, "kit"), message, do, instead=guess)

    def wrong(
        self, at: Key, message: str, do: str, rule: str = "file/reference", instead: str | None = None
    ) -> None:
        """Note what is wrong at a key of the list."""
        key = (*self.key, *at)
        right = (instead,) if instead else ()
        self.problems.append(Problem(rule, self.document.place(key), key_text(key), message, do, right))


def _filled_up(own: dict[str, Any]) -> dict[str, Any]:
    """Return a part that takes the keys of a call, with what its kind needs."""
    name = _any_that_takes(own)
    return {"part": name, **{key: NEEDED[key] for key in kinds.PART[name].needs}, **own}


def _any_that_takes(part: dict[str, Any]) -> str:
    """Return some kind of part that takes these keys; a ring where none does."""
    for name in kinds.PART_OF_GEAR.values() if "gear" in part else ("ring", *kinds.PART):
        if part.keys() <= kinds.PART[name].takes | kinds.PART_SHARED:
            return Plain(name)
    return Plain("ring")


def _merged(part: Any, own: dict[str, Any]) -> Any:
    """Return a part of a kit with the values that its call has; groups are merged key by key."""
    if not isinstance(part, dict) or not own:
        return part
    found = dict(part)
    for key, value in own.items():
        found[key] = (
            _merged(found.get(key), value)
            if isinstance(value, dict) and isinstance(found.get(key), dict)
            else value
        )
    return found
