"""Questions on the kind of line and on its pieces."""

from __future__ import annotations

from typing import get_args

from riglint.asking.answered import kind_of_line, leg_places, of_kind
from riglint.asking.gear_blanks import FIBRES, label_blanks, tie_back_blanks
from riglint.asking.question import Blank, Question
from riglint.asking.recipes import BACKUP, CHAINS, HAUL, LEASH, MULTIPLIER, blanks_of
from riglint.model.vocabulary import words

PIECES: tuple[Question, ...] = (
    Question(
        "line",
        "Which kind of line?",
        "The kind decides what else matters.",
        (Blank("kind of line", "word", choices=tuple(CHAINS), usual="ratchet"),),
    ),
    Question(
        "ends",
        "What holds each end?",
        "Trees and bolts fail in different ways.",
        (
            Blank("near", "word", choices=("tree", "bolts"), usual="bolts"),
            Blank("far", "word", choices=("tree", "bolts"), usual="bolts"),
        ),
        when=of_kind("highline"),
    ),
    Question(
        "layout",
        "Will you rig it like this? The file then says so; with no or ? it leaves this open.",
        "If nobody says it, it counts as unknown.",
        (Blank("like this", "word", choices=("yes", "no")),),
        when=of_kind("pulley", "highline"),
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
        "One leg may fail. The others must hold.",
        pieces=lambda answers: tuple(place.blank for place in leg_places(answers)),
        when=of_kind("highline"),
        from_list=True,
    ),
    Question(
        "backup_pieces",
        "Which pieces make the backup?",
        "It catches the walker when the main line fails, so it shares no piece with it.",
        blanks_of(BACKUP),
        when=of_kind("highline"),
        from_list=True,
    ),
    Question(
        "leash_pieces",
        "Which leash and which two rings?",
        "The leash is the last thing between a fall and the ground.",
        blanks_of(LEASH),
        when=of_kind("highline"),
        from_list=True,
    ),
    Question(
        "haul",
        "Which pieces make the pulley system?",
        "Friction and the weakest block set what the crew can reach and hold.",
        blanks_of(HAUL),
        when=of_kind("pulley"),
        from_list=True,
    ),
    Question(
        "multiplier",
        "Which pieces make the 3:1 on the lead strand? - for each if there is none.",
        "A rope grip only takes so much before it cuts the rope.",
        blanks_of(MULTIPLIER),
        when=of_kind("pulley"),
        from_list=True,
    ),
    Question(
        "haul_lengths",
        "How far apart are the blocks, hand-tight and closed? How much rope is left beyond the stopper knot "
        "at the planned tension?",
        "With too little travel or rope you can't tighten or lower the line.",
        (
            Blank("open", such_as="7 m"),
            Blank("closed", such_as="0.7 m"),
            Blank("rope left", such_as="19.5 m"),
        ),
        when=of_kind("pulley"),
    ),
    Question(
        "tie_back",
        "Which tie-back catches the line if the pulley system or tensioner lets go, and on which sling? - for none.",
        "Without it one failed part sends metal and webbing at the crew.",
        pieces=tie_back_blanks,
        when=of_kind("pulley", "ratchet", "tackle"),
        from_list=True,
    ),
    Question(
        "rope_ends",
        "How is the rope of the pulley system tied at its dead end, and how is the tie-back?",
        "An end that slips or rolls lets go in the catch.",
        (
            Blank("dead end", "word", choices=get_args(words.RopeEnd)),
            Blank("tie-back", "word", choices=get_args(words.RopeEnd)),
        ),
        when=of_kind("pulley"),
    ),
    Question(
        "labels",
        "What do the labels say? Breaking strengths, and rated loads of slings and shackles.",
        "Strength is on the label and nowhere else. If you can't read it, leave it out.",
        pieces=label_blanks,
        when=of_kind("ratchet", "tackle"),
        from_list=False,
    ),
    Question(
        "data_sheet",
        "What is the webbing like: its width, fibre, mass per metre, and stretch at three tensions?",
        "The maker's data sheet has it. A light, stiff line pulls harder under the same walker.",
        (
            Blank("width", such_as="50 mm"),
            Blank("fibre", "word", choices=FIBRES),
            Blank("mass per metre", dimension="mass_per_length", such_as="105 g/m"),
            Blank("stretch at 1 kN", dimension="strain_or_ratio", such_as="0.9 %"),
            Blank("stretch at 5 kN", dimension="strain_or_ratio", such_as="3.4 %"),
            Blank("stretch at 10 kN", dimension="strain_or_ratio", such_as="6 %"),
        ),
        when=of_kind("ratchet", "tackle"),
        from_list=False,
    ),
    Question(
        "sizes",
        "How long are the slings laid flat, how wide, of which fibre, and how are they laid? Which metal has the rest?",
        "A sling must reach round the tree, and a choke costs a fifth of its strength or more.",
        (
            Blank("sling length", such_as="2 m"),
            Blank("sling width", such_as="55 mm"),
            Blank("fibre", "word", choices=("polyester", "polyamide", "uhmwpe", "polypropylene")),
            Blank("hitch", "word", choices=("basket", "choke")),
            Blank("metal", "word", choices=("steel", "stainless", "aluminium")),
        ),
        when=of_kind("ratchet", "tackle"),
        from_list=False,
    ),
    Question(
        "around",
        "How long and wide are the tree protectors, how long is the tie-back sling, and how slack? none for none.",
        "Bark dies under a bare sling. A tie-back catches the metal when the tensioner fails.",
        (
            Blank("protector length, or none", such_as="1.6 m", may_be_none=True),
            Blank("protector width", such_as="200 mm"),
            Blank("tie-back length, or none", such_as="2 m", may_be_none=True),
            Blank("slack", such_as="0.2 m"),
        ),
        when=of_kind("ratchet", "tackle"),
        from_list=False,
    ),
)
