"""What stands at the head of every report: what is in force, and what the mark files of libraries set."""

from __future__ import annotations

from riglint.policy import InForce
from riglint.views.audit.words import unfit_policy

SHOWN = 12  # letters of a hash


def settings_in_words(force: InForce) -> list[str]:
    """Return what each library's mark file sets, loosening included."""
    told = [one for one in force.marks if one.sets]
    return [f"Settings of {one.path} (sha256 {one.sha256[:SHOWN]}): {' '.join(one.sets)}" for one in told]


def top_of(force: InForce) -> list[str]:
    """Return what a report says of what is in force before everything else."""
    return [*unfit_policy(force), *settings_in_words(force)]
