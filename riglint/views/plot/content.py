"""A rig at several values of one of its keys: what each does, and what the rules then say."""

from __future__ import annotations

from riglint.policy import InForce
from riglint.records import dataclass
from riglint.views.audit.settings_words import top_of
from riglint.views.audit.words import policy_in_words


@dataclass(frozen=True, slots=True)
class PlotPoint:
    """A rig at one value; None for what is not known there."""

    text: str  # the value as a file has it
    number: float
    word: str | None  # the gravest signal word; None where no rule says more than NOTICE
    rule: str | None  # which says it
    because: str  # its sentence
    share: float | None  # least ratio of all parts to what is asked of it
    weakest: str
    clearance_m: float | None  # least under anybody who walks, at rest
    sag_m: float | None
    hand_kn: float | None  # what the crew must pull
    let_down_m: float | None  # rope that lowering to zero takes


@dataclass(frozen=True, slots=True)
class Plot:
    """A rig over one value."""

    title: str
    path: str
    on: str
    key: str
    unit: str
    today: float | None
    points: tuple[PlotPoint, ...]
    seal: str
    force: InForce

    @property
    def policy(self) -> list[str]:
        """What a policy changes in the words of the rules, and what it leaves unanswered."""
        force = self.force
        told = f"The policy {force.title} ({force.path}) {policy_in_words(force)}."
        return [*top_of(force), *([told] if force.path else [])]


# What is drawn: its name, unit, a line across with what it is, and how to find it.
CURVES = (
    ("strength to what is asked, least of all parts", "", (1.0, "what is asked"), "share"),
    ("clearance under the walker", "m", (0.0, "the ground"), "clearance_m"),
    ("sag under the walker", "m", None, "sag_m"),
    ("pull of the crew", "kN", None, "hand_kn"),
    ("rope to let down to zero", "m", None, "let_down_m"),
)
