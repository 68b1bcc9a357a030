"""What only a highline has: spreads on bolts or trees, a backup line, a leash, edges."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.asking.answered import ENDS, LINES, anchors_of, known_end, leg_places, so
from riglint.asking.question import Answers, name_and_hitch, piece, word
from riglint.asking.recipes import BACKUP

TREE_ANGLE, BOLT_ANGLE = "10 deg", "50 deg"  # between two slings round one trunk; between bolts of one row


def anchor(answers: Answers, end: str) -> list[dict[str, Any]]:
    """Return the anchor part of one end; nothing where nobody knows what it hangs on, and the chain then is open."""
    if known_end(answers, end) is None:
        return []
    return [{"part": "anchor", "at": end, "height": word(answers, "lengths", 1 + ENDS.index(end))}]


def legs(answers: Answers, end: str, line: str) -> list[dict[str, Any]]:
    """Return the spread of one line at one end; nothing where nobody knows what it hangs on."""
    bolts = end in anchors_of(answers, "bolts")
    if known_end(answers, end) is None:
        return []
    chains = list(_chains(answers, end, line))
    if len(chains) == 1:
        return [{"part": "sling", **chains[0][-1], "hitch": "basket"}]
    found = []
    for n, chain in enumerate(chains):
        to = f"{end[0]}{n + 1 + (dict(LINES)['main'] if line == 'backup' else 0)}" if bolts else end
        found.append({"to": to, "chain": chain})
    spread = {
        "part": "legs",
        "share": "fixed",
        "included_angle": BOLT_ANGLE if bolts else TREE_ANGLE,
        "extension": "0.05 m",
        "legs": found,
    }
    return [spread]


def _chains(answers: Answers, end: str, line: str) -> Iterator[list[dict[str, Any]]]:
    """Yield the parts of each leg."""
    chain: list[dict[str, Any]] = []
    for n, place in enumerate(leg_places(answers)):
        if (place.end, place.line) != (end, line):
            continue
        gear = piece(answers, "legs", n)
        if place.part == "quick_link":
            chain = [{"part": "quick_link", "gear": gear}]
            continue
        name, hitch = name_and_hitch(gear or "")
        usual = "straight" if chain else "basket"
        yield [
            *chain,
            {"part": "sling", "gear": name or None, "hitch": usual if chain or not hitch else hitch},
        ]
        chain = []


def backups(answers: Answers) -> list[dict[str, Any]]:
    """Return the backup line on anchors of its own."""
    parts = []
    for n, place in enumerate(BACKUP):
        part: dict[str, Any] = {"part": place.part, "gear": word(answers, "backup_pieces", n)}
        if place.part == "webbing_anchor":
            part["tail"] = word(answers, "webbing", 1)
        parts.append(part)
    gaps = [word(answers, "backup_lengths", 1), word(answers, "backup_lengths", 2)]
    near, far = (anchor(answers, end) for end in ENDS)
    return [
        {
            "kind": "line",
            "holds": "main",
            "extra": word(answers, "backup_lengths"),
            "taped_every": gaps if all(gaps) else None,
            "chain": [
                *near,
                *legs(answers, "near", "backup"),
                *parts,
                *legs(answers, "far", "backup"),
                *far,
            ],
        }
    ]


def leash(answers: Answers) -> dict[str, Any]:
    """Return the leash, on both lines."""
    leash, *rings = (piece(answers, "leash_pieces", n) for n in range(3))
    return {
        "gear": leash,
        "hang": word(answers, "edges", 2),
        "rings": [one for one in rings if one] or None,
        "rings_on": ["main", "backup"],
        "ring_knot": "figure_eight",
        "harness_knot": "figure_eight",
        "partner_check": so(answers, "partner_check"),
    }


def edges(answers: Answers) -> list[dict[str, Any]]:
    """Return the edges that the lines run over, padded under both."""
    found = []
    for n, end in enumerate(ENDS):
        where = word(answers, "edges", n)
        if where == "none" or known_end(answers, end) is None:
            continue
        found.append({"at": end, "from_anchor": where, "padded": ["main", "backup"], "metal_over": "false"})
    return found
