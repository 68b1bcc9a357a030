"""Builds the calculation sheet's content from the loads of a rig."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from riglint.loads import Loads
from riglint.loads.assumed import at_each_end, worst_consequence
from riglint.loads.inputs import MissingInput, NotComputable, known
from riglint.loads.what_if.sensitivity import ranking
from riglint.policy import DEFAULT, InForce
from riglint.rulekit.together import AnchorOfDay
from riglint.views.assumed import assumed_of
from riglint.views.audit.settings_words import settings_in_words
from riglint.views.audit.words import CAUTION_TEXT, sealed
from riglint.views.blocks import Section
from riglint.views.drawing.bars import bars_of
from riglint.views.drawing.curves import profile_of, tensions_of
from riglint.views.sheet.content import Sheet
from riglint.views.sheet.inputs import inputs_section
from riglint.views.sheet.parts import parts_section
from riglint.views.sheet.results import results_of
from riglint.views.sheet.worked.anchors import anchors_section
from riglint.views.sheet.worked.backups import backup_sections
from riglint.views.sheet.worked.haul import haul_section
from riglint.views.sheet.worked.person import person_section
from riglint.views.sheet.worked.removal import removal_section
from riglint.views.sheet.worked.states import clearance_section, states_section
from riglint.views.sheet.worked.tie_back import tie_back_section
from riglint.views.sheet.worked.together import together_section
from riglint.views.sheet.worked.webbing import webbing_section


def build_sheet(
    loads: Loads,
    on: date,
    force: InForce = DEFAULT,
    seal: str = "",
    what_if: tuple[str, ...] = (),
    *,
    shared: Sequence[AnchorOfDay] = (),
    unread: Sequence[str] = (),
) -> Sheet:
    """Return everything that the sheet of one rig says.

    Args:
        loads: the rig.
        on: the day.
        force: the limits in force.
        seal: names the rulebook that came with what computed it.
        what_if: says which values were taken instead of the file's.
        shared: the anchors that other lines or guys pull at too.
        unread: the paths of rigs at the same spot that cannot be read.
    """
    rig, each, ranked = loads.path.rig, at_each_end(loads), ranking(loads)
    consequence = worst_consequence(each)
    sections: list[Section | None] = [
        states_section(loads),
        clearance_section(loads),
        parts_section(loads),
        inputs_section(ranked),
        haul_section(loads),
        tie_back_section(loads),
        person_section(loads),
        webbing_section(loads),
        anchors_section(loads),
        together_section(shared, unread),
        *(known(lambda: backup_sections(loads)) or []),
        removal_section(loads),
    ]
    return Sheet(
        rig.rig.title,
        rig.document.path,
        on.isoformat(),
        (f"policy: {force.title}" if force.path else force.title) + (f", {sealed(seal)}" if seal else ""),
        f"{consequence.word}: {'; '.join(consequence.reasons)}",
        tuple(section for section in sections if section is not None),
        tuple(missing_for(loads)),
        CAUTION_TEXT,
        results_of(loads, ranked),
        profile_of(loads),
        tensions_of(loads),
        bars_of(loads),
        assumed_of(each),
        what_if,
        tuple(settings_in_words(force)),
    )


def missing_for(loads: Loads) -> list[str]:
    """Say what keeps a part of the sheet from being computed."""
    reasons: list[str] = []
    asks: list[Callable[[], object]] = [
        lambda: loads.standing,
        loads.people,
        lambda: loads.parts,
        *(lambda load=load: load.strength for load in known(lambda: loads.parts) or []),
        *(lambda backup=backup: loads.catch(backup) for backup in loads.backups),
    ]
    for ask in asks:
        try:
            ask()
        except MissingInput as missing:
            reasons += [f"{at.key_text} in {at.path}" for at in missing.fields]
        except NotComputable as unable:
            reasons.append(unable.because)
    return list(dict.fromkeys(reasons))
