"""What a library's mark file sets for everything below it. It is data: no rules, no programs, no word to stop at."""

from typing import Literal

from riglint.model.vocabulary import words
from riglint.model.vocabulary.fields import Day, Form, Reason, Text, about, for_people, needed


class LeaveOutRow(Form):
    """Files or folders that are not audited."""

    path: Text = needed("A file or folder from this file on; * and ? stand for letters within one name.")
    because: Reason = needed("Why; printed at the head of every report.")


class LibraryFile(Form):
    """What a library sets for every audit of it."""

    riglint: Literal["library/1"] = needed("Kind and version of the document.")
    title: Text | None = for_people("Whose library it is.", "it names the settings in reports.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    policy: Text | None = about("The club's policy: the path of its file from this file on.")
    known: Text | None = about("The findings known already: the path of their file from this file on.")
    leave_out: list[LeaveOutRow] = about("What is not audited, each with its reason.", default=[])
    days: list[Day] = about(
        "The days at the spot: lines are added up on these days only; [] looks at every day.", default=[]
    )
    units: words.Units | None = about("The units of the reports.")
