"""What an audit's page draws of each rig."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.findings import FileResult, Finding
from riglint.records import dataclass
from riglint.views.drawing.chain import Chain, chains_of
from riglint.views.drawing.curves import Profile, profile_of
from riglint.views.drawing.haul import HaulView, haul_of


@dataclass(frozen=True, slots=True)
class Drawn:
    """The drawings of one rig; None for what is not known or not there."""

    profile: Profile | None
    haul: HaulView | None
    chains: tuple[Chain, ...]  # the main line first


def drawn_of(result: FileResult, findings: Sequence[Finding]) -> Drawn | None:
    """Return what is drawn of a rig; None of a file that is no rig, or could not be read as one.

    Args:
        result: the file.
        findings: what was found in it and in the files that it refers to.
    """
    loads = result.computed
    if loads is None:
        return None
    return Drawn(profile_of(loads), haul_of(loads), chains_of(loads, findings))
