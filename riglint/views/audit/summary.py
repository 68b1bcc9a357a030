"""What an audit says first of each rig: the consequence, the tensions, the part with the least to spare."""

from __future__ import annotations

from riglint.findings import FileResult
from riglint.loads import Loads
from riglint.loads.inputs import known
from riglint.model.vocabulary.words import Consequence
from riglint.records import dataclass
from riglint.views.audit.part_names import PartNames
from riglint.views.audit.words import first_to_go, states_in_words


@dataclass(frozen=True, slots=True)
class Summary:
    """One rig in three sentences; None for what is not known."""

    consequence: Consequence
    at_stake: str
    line: str | None
    first: str | None
    names: str = ""  # of its parts, as `PartNames` writes them

    @property
    def rows(self) -> list[tuple[str, str]]:
        """Each sentence that is known, with the word in front of it."""
        found = (("consequence", self.at_stake), ("line", self.line), ("weakest", self.first))
        return [(label, words) for label, words in found if words]


def summary_of(result: FileResult) -> Summary | None:
    """Return what is said first of a rig; None of a file that is no rig, or could not be read as one."""
    if isinstance(result.kept, Summary):
        return result.kept
    loads = result.computed
    return None if loads is None else summary_of_rig(loads)


def summary_of_rig(loads: Loads) -> Summary:
    """Return what is said first of a rig."""
    consequence = loads.consequence
    return Summary(
        consequence.word,
        f"{consequence.word}: {'; '.join(consequence.reasons)}",
        known(lambda: states_in_words(loads)),
        known(lambda: first_to_go(loads)),
        PartNames(loads).as_text(),
    )


def consequence_of(result: FileResult) -> str | None:
    """Return the word for what a failure would lead to; None of a file that is no rig."""
    summary = summary_of(result)
    return summary.consequence if summary is not None else None
