"""The questions, in their order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple, get_args

from riglint.asking.question import Answers, Blank, Question, word
from riglint.asking.recipes import BACKUP, CHAINS, HAUL, LEASH, MULTIPLIER, SLINGS, TIE_BACK, blanks_of
from riglint.model import words

ENDS = ("near", "far")
LINES = (("main", 3), ("backup", 2))  # bolts of each line at one end
GROUND = ("path", "wires", "obstacles")
SO = ("permission", "public", "watcher", "spotter", "checker", "wet", "night", "unattended")
SO_HIGH = ("rescue", "tag_line", "partner_check")


def kind_of_line(answers: Answers) -> str:
    """Return which kind of line is asked for."""
    return word(answers, "line") or "ratchet"


def _is(*kinds: str) -> Callable[[Answers], bool]:
    return lambda answers: kind_of_line(answers) in kinds


def anchors_of(answers: Answers, kind: str) -> tuple[str, ...]:
    """Return the ends that hang on this kind of anchor; trees, unless another answer was given."""
    return tuple(end for n, end in enumerate(ENDS) if (word(answers, "ends", n) or "tree") == kind)


def _trees(answers: Answers) -> tuple[str, ...]:
    return anchors_of(answers, "tree")


def _bolts(answers: Answers) -> tuple[str, ...]:
    return anchors_of(answers, "bolts")


def _ticked(name: str) -> Callable[[Answers], bool]:
    return lambda answers: word(answers, "so", SO_NAMES.index(name)) == "true"


def _ticks(names: tuple[str, ...]) -> tuple[Blank, ...]:
    return tuple(Blank(name) for name in names)


class LegPlace(NamedTuple):
    """One piece of a spread."""

    end: str
    line: str
    part: str
    number: int
    on_bolts: bool

    @property
    def blank(self) -> Blank:
        """The blank that asks for it."""
        kinds = ("quick_link",) if self.part == "quick_link" else SLINGS
        words_ = "link" if self.part == "quick_link" else "sling"
        hitched = self.part == "sling" and not self.on_bolts
        return Blank(f"{self.end} {self.line} {words_} {self.number}", "gear", choices=kinds, hitched=hitched)


def leg_places(answers: Answers) -> tuple[LegPlace, ...]:
    """Return the pieces of the spreads: a link and a sling on each bolt; slings alone, one fewer, on a tree."""
    found = []
    for end in ENDS:
        bolts = end in anchors_of(answers, "bolts")
        for line, count in LINES:
            for n in range(1, (count if bolts else count - 1) + 1):
                found += [LegPlace(end, line, part, n, bolts) for part in (("quick_link", "sling") if bolts else ("sling",))]
    return tuple(found)


def _legs(answers: Answers) -> tuple[Blank, ...]:
    return tuple(place.blank for place in leg_places(answers))


SO_NAMES = (*GROUND, *SO, *SO_HIGH)
FORCE = "force"
QUESTIONS: tuple[Question, ...] = (
    Question(
        "line",
        "Which kind of line?",
        "The kind decides what else matters.",
        (Blank("kind of line", "word", choices=tuple(CHAINS), usual="ratchet"),),
    ),
    Question(
        "layout",
        "Will you rig it like this? The file then says so; with no or ? it leaves this open.",
        "What nobody has said counts as not known.",
        (Blank("like this", "word", choices=("yes", "no")),),
    ),
    Question(
        "ends",
        "What holds each end?",
        "Trees and bolts fail in different ways.",
        (
            Blank("near", "word", choices=("tree", "bolts"), usual="bolts"),
            Blank("far", "word", choices=("tree", "bolts"), usual="bolts"),
        ),
        when=_is("highline"),
    ),
    Question(
        "pieces",
        "Which pieces, from the near anchor to the far one? Add choke or basket behind a sling; - for none.",
        "The weakest piece decides. Each needs its own name, so that nothing is used twice.",
        pieces=lambda answers: blanks_of(CHAINS[kind_of_line(answers)]),
        from_list=True,
    ),
    Question(
        "legs",
        "Which links and slings make the spreads? Three main bolts and two backup bolts an end; two and one on a tree.",
        "One leg may go; the others must hold.",
        pieces=_legs,
        when=_is("highline"),
        from_list=True,
    ),
    Question(
        "backup_pieces",
        "Which pieces make the backup?",
        "It holds when the main line goes, so it shares no piece with it.",
        blanks_of(BACKUP),
        when=_is("highline"),
        from_list=True,
    ),
    Question(
        "leash_pieces",
        "Which leash and which two rings?",
        "The leash is the last thing between a fall and the ground.",
        blanks_of(LEASH),
        when=_is("highline"),
        from_list=True,
    ),
    Question(
        "haul",
        "Which pieces make the pulley system?",
        "Friction and the weakest block set what the crew can reach and hold.",
        blanks_of(HAUL),
        when=_is("pulley"),
        from_list=True,
    ),
    Question(
        "multiplier",
        "Which pieces make the 3:1 on the lead strand? - for each if there is none.",
        "A rope grip takes only so much before it cuts the rope.",
        blanks_of(MULTIPLIER),
        when=_is("pulley"),
        from_list=True,
    ),
    Question(
        "tie_back",
        "Which tie-back catches the line if the pulley system lets go, and on which sling?",
        "Without it one failed part sends blocks and webbing at the crew.",
        blanks_of(TIE_BACK),
        when=_is("pulley"),
        from_list=True,
    ),
    Question(
        "rope_ends",
        "How is the haul rope made fast at its dead end, and how the tie-back?",
        "An end that slips or rolls lets go in the catch.",
        (
            Blank("dead end", "word", choices=get_args(words.RopeEnd)),
            Blank("tie-back", "word", choices=get_args(words.RopeEnd)),
        ),
        when=_is("pulley"),
    ),
    Question(
        "labels",
        "What do the labels say? Breaking strengths, and rated loads of slings and shackles.",
        "Strength stands on the label and nowhere else. Leave out what you cannot read.",
        (
            Blank("webbing", dimension=FORCE, such_as="40 kN"),
            Blank("sewn loop", dimension=FORCE, such_as="32 kN"),
            Blank("ratchet or tackle", dimension=FORCE, such_as="40 kN"),
            Blank("slings", dimension="force_or_mass", such_as="2 t"),
            Blank("shackles", dimension="force_or_mass", such_as="3.25 t"),
        ),
        when=_is("ratchet", "tackle"),
        from_list=False,
    ),
    Question(
        "sizes",
        "How wide is the webbing, of which material, and how long are the slings laid flat?",
        "Mass and stretch follow from width and material, and a sling must reach round the tree.",
        (
            Blank("width", such_as="50 mm"),
            Blank("material", "word", choices=("polyester", "polyamide", "uhmwpe", "polypropylene", "mixed")),
            Blank("sling length", such_as="2 m"),
        ),
        when=_is("ratchet", "tackle"),
        from_list=False,
    ),
    Question(
        "lengths",
        "How far apart are the anchors, and how high is the sling or bolt on each?",
        "Sag, tension and height of a fall come from these.",
        (
            Blank("span", such_as="15 m"),
            Blank("height near", such_as="0.9 m"),
            Blank("height far", such_as="0.9 m"),
        ),
    ),
    Question(
        "webbing",
        "How long is the webbing cut, and how much of it hangs behind its anchor?",
        "A short tail slips out.",
        (Blank("cut", such_as="90 m"), Blank("tail", such_as="16 m")),
        when=_is("pulley", "highline"),
    ),
    Question(
        "backup_lengths",
        "How much longer is the backup than its span, and how far apart are the tapes at least and at most?",
        "A long backup drops the walker far; even loops swing together.",
        (
            Blank("longer by", dimension="strain_or_ratio", usual="4 %"),
            Blank("shortest gap", usual="1.8 m"),
            Blank("longest gap", usual="2.6 m"),
        ),
        when=_is("highline"),
    ),
    Question(
        "haul_lengths",
        "How far apart are the blocks, hand-tight and closed, and how much rope is left behind the stopper knot?",
        "Too little travel or rope, and the line cannot be tightened or let down.",
        (
            Blank("open", such_as="7 m"),
            Blank("closed", such_as="0.7 m"),
            Blank("rope left", such_as="19.5 m"),
        ),
        when=_is("pulley"),
    ),
    Question(
        "edges",
        "How far from each anchor does the line cross an edge, and how far does a walker hang below the rings?",
        "Edges cut webbing, and a short leash cannot be climbed.",
        (
            Blank("edge near, or none", such_as="3 m", may_be_none=True),
            Blank("edge far, or none", such_as="3 m", may_be_none=True),
            Blank("hang", such_as="2.2 m"),
        ),
        when=_is("highline"),
    ),
    Question(
        "trees",
        "How thick is each tree where the sling goes, and which species?",
        "A thin or weak stem breaks before the gear does.",
        (Blank("girth", such_as="140 cm"), Blank("species", "text", such_as="oak")),
        groups=_trees,
        when=lambda answers: bool(_trees(answers)),
    ),
    Question(
        "looks",
        "What did you see on each tree?",
        "Dead wood and forked stems fail without warning.",
        (
            Blank("bark", "word", choices=get_args(words.Bark)),
            Blank("health", "word", choices=get_args(words.Health)),
            Blank("fork", "word", choices=get_args(words.Fork)),
        ),
        groups=_trees,
        when=lambda answers: bool(_trees(answers)),
    ),
    Question(
        "bolts",
        "How strong are the bolts, and how far from the next bolt and from the edge?",
        "Rock near an edge or between close bolts breaks out.",
        (
            Blank("strength across", dimension=FORCE, such_as="25 kN"),
            Blank("strength along", dimension=FORCE, such_as="15 kN"),
            Blank("spacing", such_as="0.3 m"),
            Blank("edge", such_as="0.4 m"),
            Blank("pull out of the plane", dimension="angle", such_as="10 deg"),
            Blank("rock", "text", such_as="granite"),
            Blank("standard", "text", such_as="EN 959"),
        ),
        groups=_bolts,
        when=lambda answers: bool(_bolts(answers)),
    ),
    Question(
        "bolt_dates",
        "When were the bolts placed, and when last tested?",
        "Old and untested bolts hold less than their label.",
        (Blank("placed", "day", such_as="2023-05"), Blank("tested", "day", such_as="2025-06")),
        groups=_bolts,
        when=lambda answers: bool(_bolts(answers)),
    ),
    Question(
        "ground",
        "What would one land on, how is the soil, and how high is the ground in the middle and at the far end?",
        "Heights count from the ground at the near anchor; minus means lower. Flat ground is 0 m.",
        (
            Blank("surface", "word", choices=get_args(words.Surface)),
            Blank("soil", "word", choices=get_args(words.Soil)),
            Blank("ground in the middle", such_as="-0.1 m"),
            Blank("ground at the far end", such_as="0 m"),
        ),
    ),
    Question(
        "so",
        "Which of these are there, or so, on that day? Name those; the others then count as no.",
        "A path, a wire or wet webbing changes what a failure costs.",
        _ticks(SO_NAMES),
        ticks=True,
    ),
    Question(
        "wires",
        "How near are wires, and at what voltage?",
        "Current jumps to a line that swings near.",
        (Blank("distance", such_as="12 m"), Blank("voltage", dimension="voltage", such_as="20 kV")),
        any_number=True,
        when=_ticked("wires"),
    ),
    Question(
        "obstacles",
        "What could one fall on: what, how far along, how far aside, how high?",
        "Most injuries on low lines come from what stands beside them.",
        (
            Blank("what", "text", such_as="bench"),
            Blank("along", such_as="7 m"),
            Blank("aside", such_as="1.2 m"),
            Blank("height", such_as="0.5 m"),
        ),
        any_number=True,
        when=_ticked("obstacles"),
    ),
    Question(
        "people",
        "Who may be on the line, one at a time? Mass with clothes and gear, and how practised.",
        "The heaviest sets the load, the least practised the fall. Don't guess anyone's weight.",
        (
            Blank("mass", dimension="mass", such_as="75 kg"),
            Blank("level", "word", choices=get_args(words.Level)),
        ),
        any_number=True,
    ),
    Question(
        "moves",
        "What do they do on it?",
        "A bounce or a jump loads the line far more than walking.",
        (Blank("move", "word", choices=get_args(words.Move), usual="walk"),),
        any_number=True,
    ),
    Question(
        "plan",
        "How tight, how many pull, how hard each, and what wind at most?",
        "Tension with nobody on the line. A person pulls about 0.35 kN for long.",
        (
            Blank("tension", dimension=FORCE, such_as="2.2 kN"),
            Blank("people who pull", "count", usual="2"),
            Blank("pull of each", dimension=FORCE, usual="0.35 kN"),
            Blank("wind", dimension="speed", such_as="10 km/h"),
        ),
    ),
    Question(
        "turns",
        "How many turns does the rope tail take round the trunk while you let down?",
        "Turns take the pull off the hand on the rope.",
        (Blank("turns", "count", such_as="1"),),
        when=_is("pulley"),
    ),
    Question(
        "days",
        "Which day, and how many days does it stay up?",
        "Gear that stays up ages, and checks fall due.",
        (Blank("day", "day", such_as="2026-05-03"), Blank("days up", "count", usual="1")),
        from_list=True,
    ),
    Question(
        "dates",
        "Which day, when were webbing and slings made, when was all gear last checked, and how many days up?",
        "Textiles age even in the bag.",
        (
            Blank("day", "day", such_as="2026-05-03"),
            Blank("made", "day", such_as="2023-05"),
            Blank("checked", "day", such_as="2026-04-02"),
            Blank("days up", "count", usual="1"),
        ),
        from_list=False,
    ),
)
# Until these are answered there is no rig to speak of, so nothing is said of it.
GEAR = ("pieces", "legs", "backup_pieces", "leash_pieces", "haul", "multiplier", "tie_back", "labels")


def relevant(answers: Answers, *, from_list: bool) -> Iterator[Question]:
    """Yield the questions that the answers so far make relevant, in their order."""
    for question in QUESTIONS:
        if question.from_list in {None, from_list} and question.when(answers):
            yield question
