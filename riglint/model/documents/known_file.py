"""The findings that a library has had for a while, each kept out of the exit status by itself and until a day."""

from typing import Literal

from riglint.model.vocabulary import words
from riglint.model.vocabulary.fields import Day, Form, Number, Reason, Text, Until, about, for_people, needed


class KnownRow(Form):
    """One finding that is known, as it was when somebody took it on."""

    rule: Text = needed("The rule, such as tail/webbing.")
    file: Text = needed("The file that it stands in, from the top of the library on.")
    place: Text | None = about("The key that it points to, with the names of parts instead of their numbers.")
    part: Text | None = about("The part that it concerns, by name.")
    cause: Text = needed("What it says, with # for each number.")
    kind: words.KnownKind = about("Whether it is a fault or something to look at.", default="fail")
    word: words.KnownWord = needed(
        "Its signal word. A DANGER is never known, and a higher word than this one stops the run."
    )
    value: Number | None = about("The number that it found. A worse number stops.")
    limit: Number | None = about("The number that it was held against.")
    rigs: list[Text] = about(
        "The rigs that a fault of a shared file touches. One rig more stops.", default=[]
    )
    since: Day = needed("The day somebody took it on.")
    until: Until = needed("The last day it is kept; a year from the day of the audit at the most.")
    role: Reason = needed("The role of the person who answers for it.")
    reason: Reason = needed("Why it is kept.")


class KnownFile(Form):
    """Findings that a library has had for a while."""

    riglint: Literal["known/1"] = needed("Kind and version of the document.")
    title: Text | None = for_people("Whose findings these are.", "it names the file in reports.")
    note: Text | None = for_people("Anything a reader should know.", "a rule does not judge free text.")
    known: list[KnownRow] = needed("The findings, each by itself.")
