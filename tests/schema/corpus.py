"""Documents with one thing tried in each, right or wrong: for the reader, the schemas, and other programs.

What is right is the format that this project defines; there is no outside source for it. A word `@` in a form
is where the thing tried goes.
"""

import itertools
from typing import NamedTuple

from riglint.model.vocabulary import kinds
from riglint.read.quantity import units_of
from riglint.read.units import Dimension

RIG = "riglint: rig/1\ntitle: Line\nchain: [{part: anchor, at: north}]\n@\n"
CHAIN = "riglint: rig/1\ntitle: Line\nchain:\n- {part: anchor, at: north}\n- @\n"
SPOT = "riglint: spot/1\nanchors:\n  north: @\n"
SHELF = "riglint: shelf/1\nitems:\n  A-1: @\n"
POLICY = "riglint: policy/1\ntitle: Club\n@\n"
FORMS = {"rig": RIG, "part": CHAIN, "spot": SPOT, "gear": SHELF, "policy": POLICY}
DOCUMENT_OF = {"rig": "rig", "part": "rig", "spot": "spot", "gear": "shelf", "policy": "policy"}


class Case(NamedTuple):
    """One document, what is tried in it, and whether it is right."""

    kind: str
    tried: str
    text: str
    good: bool


def case(form: str, tried: str, good: bool) -> Case:
    """Return the document of a form with one thing in it."""
    return Case(DOCUMENT_OF[form], tried, FORMS[form].replace("@", tried), good)


def quoted(text: str) -> str:
    """Return a text as YAML in double quotes, all that is not ASCII as escapes."""
    escapes = {"\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return '"' + "".join(escapes.get(c, c if c.isascii() else f"\\u{ord(c):04x}") for c in text) + '"'


# Where a quantity of each dimension stands, none of them below zero and otherwise without bounds. No field takes
# any mass, any speed, or any force or mass.
QUANTITIES: dict[Dimension, tuple[str, str]] = {
    "length": ("gear", "{kind: shackle, jaw: @}"),
    "force": ("rig", "plan: {crew: {pull_each: @}}"),
    "mass_per_length": ("gear", "{kind: webbing, mass_per_metre: @}"),
    "strain_or_ratio": ("rig", "backups: [{extra: @}]"),
    "angle": ("part", "{part: haul, pull: {redirect: {turn: @}}}"),
    "voltage": ("spot", "{kind: tree}\nsurroundings: {wires: [{distance: 9 m, voltage: @}]}"),
    "duration": ("rig", "measured: [{what: pulse, time: @}]"),
}
WRITTEN_WELL = [
    "82 @", "82@", "+82 @", "0 @", "-0 @", "\u22120.0 @", "0.5 @", "82 @ ± 0.5 @", "82@±1@", "82 @ +/- 1 @",
    "82 @ +/\u2212 1 @", " 82\u00a0@ ", "82\u202f@ \u00b1\u2009 1 @", "82\t@", "82\n@",
    "1234567890123456789 @",
    "\u300082 @\u2003", "82.00 @ ± 0 @",
]  # fmt: skip
WRITTEN_BADLY = [
    "82", "@", "", "-1 @", "\u22121 @", "- 1 @", "82,5 @", "1,000 @", "1 000 @", "1'000 @", "1_000 @",
    "082 @",
    ".5 @", "5. @", "1e3 @", "82 @ @", "82 @ ± 1", "82 @ ± -1 @", "82 @ ±", "82 @ ± 1 @ ± 1 @", "about 82 @",
    "82 parsec", "82 @.", "82 \u2000 @", "8\u0662 @", "123456789012345678901 @", "82 @ 3", "<82 @",
    "82\u2013 @",
    "82 @ ± 123456789012345678901 @", "82 @" + " " * 80 + "± 1 @",
]  # fmt: skip


def _quantity_cases(dimension: Dimension) -> list[Case]:
    form, place = QUANTITIES[dimension]
    units = units_of(dimension)
    right = [f"7 {unit}" for unit in units]
    right += [quoted(written.replace("@", units[0])) for written in WRITTEN_WELL]
    wrong = ["[]", "{}", "82", "true", "6 dB"]
    wrong += [quoted(written.replace("@", units[0])) for written in WRITTEN_BADLY]
    return _cases(form, place, right, wrong)


def _cases(form: str, place: str, right: list[str], wrong: list[str]) -> list[Case]:
    good = [case(form, place.replace("@", value), True) for value in right]
    return good + [case(form, place.replace("@", value), False) for value in wrong]


# Values of each other kind of field: where they stand, those that are right, those that are wrong. A null is
# tried in each: right where a field may be left out.
VALUES: list[tuple[str, str, list[str], list[str]]] = [
    ("rig", "note: @",
     ["one", '"12"', "12", "no", "2026-05-01", "1_000", "12:30", '""', "", "~"],
     ["[]", "{}"]),
    ("rig", "spot: @", ["a.yaml", "12", "null", "{anchors: {}}"], ["[]", "{}", "{title: x}"]),
    ("rig", "spot: {anchors: {}, riglint: @}", ["spot/1", "null"], ["rig/1", "spot/2", "1"]),
    ("rig", "shelf: [@]", ["a.yaml", "{items: {}}"], ["null", "[]", "{}", "{items: []}"]),
    ("rig", "shelf: @", ["[]", "null"], ["a.yaml", "{items: {}}"]),
    ("rig", "stage: @", ["built", '"built"', "null"], ["Built", "building", "3", "[built]"]),
    ("rig", "use: @", ["highline", "null"], ["high line", "true"]),
    ("rig", "plan: {public: @}", ["true", "false", "True", "FALSE", "null"],
     ["yes", "on", '"true"', "tRUE", "1", "[]"]),
    ("rig", "plan: {at_once: @}", ["1", "+2", "0x10", "1.0", "null"],
     ["0", "-1", "1.5", '"1"', "01", "1_0", "0x40", "one", "[]"]),
    ("rig", "plan: {days_up: @}",
     ["0", "-0", "1000", "1e3", "0x1", "0o17", "3.0", "null"],
     ["-1", "0.5", "0x", "0o8", "-0x1", "1e", '"3"', "3 d", "12:30", "9" * 5000]),
    ("rig", "plan: {tail_wraps: @}",
     ["0.5", "2", "-1.5", ".5", "1.", "1e3", "0x1", "null"],
     [".", "e3", "1.e", "0,5", '"0.5"', "yes", "9" * 21]),
    ("rig", "plan: {moves: @}", ["[]", "[walk]", "[walk, surf]", "null"], ["walk", "[run]", "[null]", "{}"]),
    ("rig", "plan: {walk_zone: @}",
     ["[2 m, 2 m]", "null"],
     ["[2 m]", "[2 m, 2 m, 2 m]", "2 m", "[2, 2]", "[]"]),
    ("rig", "plan: {users: @}", ["[]", "[{}]", "null"], ["{}", "[null]", "[70 kg]", "70 kg"]),
    ("rig", "plan: {sag_target: @}", ["{depth: 1 m, under: 75 kg}", "null"], ["{depth: 1 m}", "{}", "1 m"]),
    ("rig", "plan: {sag_target: {depth: 1 m, under: 75 kg, at: @}}",
     ["0.5", "0.01", "null"],
     ["0.5 m", "half", "0", "1", "1.5", "-0.5"]),
    ("rig", "plan: {users: [{mass: @}]}",
     ["10 kg", "70.5 kg ± 2 kg", "300 kg", "0.07 t", "70000 g", "180 lb", "null"],
     ["70", "kg", "-70 kg", "70,5 kg", "7 kN", "[]"]),
    ("gear", "{kind: webbing, mbs: @}",
     ["42 kN", "0.1 kN", "4200 kg", "4.2 t", "42 kN ± 1 kN", "9000 lbf", "null"],
     ["42", "kN", "-42 kN", "42,0 kN", "7 m", "[]"]),
    ("gear", "{kind: pulley, efficiency: @}", ["0.1", "0.9", "1", "null"], ["0", "0.09", "1.01", "95", "-0.9"]),
    ("spot", "{kind: boulder, friction: @}", ["0", "0.5", "1", "null"], ["1.1", "-0.1", "50"]),
    ("spot", "{kind: tree, girth: @}", ["5 cm", "1.3 m", "25 m", "null"], ["1.3", "-1 m"]),
    ("rig", "plan: {standing_from: @}", ["plan", "measured", "null"], ["reading", "true", "[measured]"]),
    ("rig", "plan: @", ["{}", "null"], ["[]", "soon"]),
    ("rig", "backups: @", ["[]", "null", "[{}]", "[{chain: []}]"], ["none", "{}", "[{chain: [{}]}]"]),
    ("rig", "measured: [@]", ["{what: sag}", "{what: sag, from: chord}"], ["{}", "{what: length}", "null"]),
    ("rig", "checks: [@]", ["{what: pins}", "{what: pins, date: 2026-05}"], ["{}", "{date: 2026-05}"]),
    ("rig", "$schema: @", ["x.json", "null", "[]"], []),
    ("rig", "colour: @", [], ["red", "null"]),
    ("part", "@",
     ["{part: ring}", "ring", "{gear: A}"],
     ["null", "[]", "{}", "{part: null}", "{part: rings}"]),
    ("part", "{part: anchor, at: @}", ["south", "7"], ["null", "[]", "{}"]),
    ("part", "{part: anchor, at: a, height: @}", ["1 m", "-1 m", "−1 m", "null"], ["1", '"- 1 m"']),
    ("part", "{part: legs, legs: @}",
     ["[]", "[{}]", "[{to: a, chain: []}]"],
     ["null", "{}", "[{chain: [{}]}]"]),
    ("part", "{part: webbing_anchor, tail: @}",
     ["1 m", "null", "{}", "{left: 1 m}"],
     ["1", "-1 m", "[]", "{x: 1}"]),
    ("part", "{part: haul, made_fast: @}", ["[]", "null", "[{part: ring}]"], ["[{part: anchor}]", "ring", "[ring: 1]"]),
    ("part", "{part: haul, strands: @}", ["1", "5", "null"], ["0", "2.5", "five"]),
    ("part", "{part: haul, stays: @}", ["true", "null"], ["no"]),
    ("part", "{part: haul, rope: {dead_end: {ends: @}}}", ["sewn", "bowline", "null"], ["knot", "true"]),
    ("spot", "@",
     ["{kind: tree}", "{kind: bolts, points: {a: {}}}"],
     ["null", "{}", "tree", "{kind: trees}"]),
    ("spot", "{kind: bolts, points: @}", ["{}", "null"], ["[]", "{a: null}", "{a: {bolt: 1}}"]),
    ("spot", "{kind: tree}\nground: {profile: @}",
     ["[]", "[[0 m, -1 m]]", "null"],
     ["[[0 m]]", "[0 m, 1 m]", "{}"]),
    ("spot", "{kind: tree}\naccess: @",
     ["{}", "{meeting_point: gate, signal: true}", "null"],
     ["gate", "{signal: yes}", "{phone: true}"]),
    ("spot", "{kind: tree}\nriglint_: @", [], ["1"]),
    ("gear", "@", ["{kind: swivel}"], ["null", "{}", "{kind: hook}", "[]"]),
    ("gear", "{kind: rope, made: @}",
     ["2026-05-01", "2026-05", '"2026-05"', "2024-02-29", "2000-02-29", "null"],
     ["2026", "01.05.2026", "2026-13", "2026-00", "2026-05-00", "2026-5-1", "2026-02-29", "1900-02-29",
      "2026-04-31", "0000-01", "202605", "20260501", "2026-05-01T00:00", "[]", "\uff12026-05"]),
    ("gear", "{kind: rope, stretch: @}",
     ["{1 kN: 1 %}", "{1 kN: 1 %, 2 kN: 2 %}", "null"],
     ["{}", "[]", "1 %", "{1: 1 %}", "{1 kN: 1}", "{1 kg: 1 %}", "{-1 kN: 1 %}", "{1 kN: null}"]),
    ("gear", "{kind: rope, events: @}",
     ["[]", "[{date: 2026-05, what: cut}]", "null"], ["[{}]", "[{date: 2026-05, what: lost}]"]),
    ("policy", "values: @",
     ["{}", "{a.b: 0.7 m}", "{a.b: 0.9}", "{a.b: {value: 1 m, because: x}}", "null"],
     ["[]", "{a.b: null}", "{a.b: []}", "{a.b: {value: 1 m}}", "{a.b: {because: x}}"]),
    ("policy", "required: [@]", ["{state: peak, part: rope, consequence: life, ratio: 3.5}"],
     ["{}", "{state: haul, part: rope, consequence: life, ratio: 3}",
      '{state: peak, part: rope, consequence: life, ratio: "3"}']),
    ("policy", "signals: [@]", ["{rule: a/b, consequence: life, signal: DANGER}"],
     ["{rule: a/b, consequence: life, signal: danger}", "{rule: a/b}"]),
    ("policy", "off: [@]", ["{rule: a/b, because: x}"], ["{rule: a/b}", "a/b"]),
    ("policy", "recalled: @", ["[]", "[A-1, 7]", "null"], ["A-1", "[null]"]),
]  # fmt: skip


SAMPLES = {  # of the keys whose values are no text
    "part": {
        "hitch": "basket", "share": "fixed", "knot": "bowline", "legs": "[]", "made_fast": "[]", "rope": "{}",
        "brake": "{}", "multiplier": "{}", "tie_back": "{}", "pull": "{}", "twists": "0", "strands": "3",
        "efficiency": "0.9", "stays": "true", "pins": "true", "knotted": "false", "tail_tied": "true",
        "included_angle": "9 deg", "side_load": "9 deg", "stands_at": "1 kN", "ratio": "5", "around": "x", "at": "x",
        "stop_cord": "true", "gear": "x", "id": "x", "note": "x", "moving_block": "x", "fixed_block": "x", "plate": "x",
    },
    "gear": {
        "title": "x", "note": "x", "serial": "x", "material": "steel", "standard": "x", "mbs": "1 kN",
        "wll": "1 t", "made": "2026-05", "made_by": "maker", "first_used": "2026-05", "inspected": "2026-05",
        "label": "missing",
        "events": "[]", "days_used": "0", "mass_per_metre": "9 g/m", "stretch": "{1 kN: 1 %}",
        "stretch_in_use": "{1 kN: 1 %}", "colour": "x",
        "shape": "bow", "pin": "screw", "connector_class": "B", "gate": "auto", "mbs_minor": "1 kN",
        "forged": "true", "sheaves": "2", "bearing": "ball", "efficiency": "0.9", "form": "ratchet",
        "type": "hmpe", "holds": "1 kN", "max_load": "1 kN", "doubled": "true", "stretch_per_kn": "1 %",
        "radial": "1 kN", "axial": "1 kN", "hole": "1 kN", "thickness": "9 mm", "mass": "1 kg",
    },
    "spot": {
        "note": "x", "plan": "[1 m, -1 m]", "species": "x", "bark": "rough", "health": "dead", "fork": "u",
        "lean": "1 deg",
        "deadwood": "true", "rock": "x", "points": "{}", "mass": "1 t", "friction": "0.5", "tested_force": "1 kN",
        "tested": "2026-05", "owner_agrees": "true", "design_force": "1 kN",
    },
}  # fmt: skip
TABLES = {
    "part": ("part", kinds.PART, kinds.PART_SHARED),
    "gear": ("kind", kinds.GEAR, kinds.GEAR_SHARED),
    "spot": ("kind", kinds.ANCHOR, kinds.ANCHOR_SHARED),
}


def _kind_cases(form: str) -> list[Case]:
    """Try every key in every kind: its own are right, those of other kinds wrong, and so is a missing one."""
    word, table, shared = TABLES[form]
    keys = sorted(shared.union(*(kind.takes for kind in table.values())) - {word})
    found = []
    for name, kind in table.items():
        entry = {word: name} | {key: SAMPLES[form].get(key, "1 m") for key in sorted(kind.needs)}
        found += [case(form, _entry(entry, leave_out=key), False) for key in sorted(kind.needs)]
        for key in keys:
            more = entry | {key: SAMPLES[form].get(key, "1 m")}
            found.append(case(form, _entry(more), key in kind.takes | shared))
    return found


def _entry(keys: dict[str, str], leave_out: str = "") -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in keys.items() if key != leave_out) + "}"


def _short_cases() -> list[Case]:
    """Try every key, and pairs of them, in a part written without its kind and in the call of a kit."""
    keys = sorted(kinds.PART_SHARED.union(*(kind.takes for kind in kinds.PART.values())) - {"part"})
    found = []
    for word, names in (("gear", kinds.PART_OF_GEAR.values()), ("kit", kinds.PART)):
        takes = [kinds.PART[name].takes | kinds.PART_SHARED for name in names]
        for first, second in [(key, key) for key in keys] + list(itertools.pairwise(keys)):
            more = {one: SAMPLES["part"].get(one, "1 m") for one in (first, second)}
            told = {"at", "legs"} & more.keys() - {word} if word == "gear" else set()
            good = not told and any(more.keys() <= one for one in takes)
            found.append(case("part", _entry({word: "x"} | more), good))
    wrong = [
        "{kit: null}",
        "{kit: []}",
        "{kit: x, part: ring}",
        "{kit: x, reversed: yes}",
        "{gear: null}",
        "{note: x}",
    ]
    right = [
        "x",
        "{kit: x}",
        "{kit: x, reversed: true}",
        "{kit: x, reversed: null}",
        "{at: north, height: 1 m}",
        "{legs: []}",
    ]
    return found + [case("part", one, False) for one in wrong] + [case("part", one, True) for one in right]


NEEDED = [
    Case("rig", "no title", "riglint: rig/1\nchain: []\n", False),
    Case("rig", "no chain", "riglint: rig/1\ntitle: x\n", False),
    Case("rig", "null title", "riglint: rig/1\ntitle:\nchain: []\n", False),
    Case("rig", "no version", "riglint: rig\ntitle: x\nchain: []\n", False),
    Case("rig", "another version", "riglint: rig/2\ntitle: x\nchain: []\n", False),
    Case("rig", "$schema first", "$schema: x\nriglint: rig/1\ntitle: x\nchain: []\n", True),
    Case("spot", "no kind", "anchors: {}\n", False),
    Case("spot", "kind null", "riglint:\nanchors: {}\n", False),
    Case("spot", "no anchors", "riglint: spot/1\n", False),
    Case("spot", "anchors null", "riglint: spot/1\nanchors:\n", False),
    Case("shelf", "no items", "riglint: shelf/1\n", False),
    Case("shelf", "items as a list", "riglint: shelf/1\nitems: []\n", False),
    Case("shelf", "empty", "riglint: shelf/1\nitems: {}\n", True),
    Case("policy", "no title", "riglint: policy/1\n", False),
    Case("policy", "only a title", "riglint: policy/1\ntitle: x\n", True),
]

CASES: dict[str, list[Case]] = {
    "needed": NEEDED,
    **{f"{form} with {place}": _cases(form, place, right, wrong) for form, place, right, wrong in VALUES},
    **{f"quantity of {dimension}": _quantity_cases(dimension) for dimension in QUANTITIES},
    "parts written short": _short_cases(),
    **{f"every key of every {form}": _kind_cases(form) for form in TABLES},
}
