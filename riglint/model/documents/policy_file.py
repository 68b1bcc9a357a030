"""A club's policy: what it changes of the defaults, and why where that loosens them."""

from typing import Annotated, Literal

from pydantic import Discriminator, Tag

from riglint.model.documents.parts import BARE, REASONED
from riglint.model.vocabulary import words
from riglint.model.vocabulary.fields import Form, Number, Reason, Text, about, needed, refuse
from riglint.model.vocabulary.read_by import NotedReadBy
from riglint.read.document import FALSE, TRUE, Plain


def _as_written(value: object) -> str:
    """Take a value as it stands: its name in the rulebook says what it must be."""
    if isinstance(value, Plain) and (value in TRUE or value in FALSE):
        message = f"Expected a value, found '{value}'."
        raise refuse("file/value", message, "Write a number with its unit, such as 0.7 m, or a plain number.")
    if isinstance(value, str):
        return str(value)
    message = "Expected a value, found a group or a list."
    raise refuse("file/value", message, "Write a number with its unit, such as 0.7 m, or a plain number.")


Written = Annotated[str, NotedReadBy(_as_written, {"type": ["string", "number"]})]


class Loosened(Form):
    """A value with the reason for it."""

    value: Written = needed("The value, with its unit where it has one.")
    because: Reason = needed("Why; printed at the foot of every report.")


def _with_reason(value: object) -> str:
    return REASONED if isinstance(value, dict | Loosened) else BARE


Value = Annotated[
    Annotated[Written, Tag(BARE)] | Annotated[Loosened, Tag(REASONED)], Discriminator(_with_reason)
]


class RequiredRow(Form):
    """Another required ratio for one class of parts."""

    state: Literal["peak"] = needed("The state in which the ratio is required.")
    part: Text = needed("The class of parts, such as webbing or metal.")
    consequence: words.Consequence = needed("The consequence class.")
    ratio: Number = needed("Strength in place over force.")
    because: Reason | None = about("Why; needed if it loosens a limit.")


class SignalRow(Form):
    """Another signal word for one rule."""

    rule: Text = needed("The rule, such as tail/webbing.")
    consequence: words.Consequence = needed("The consequence class.")
    signal: words.SignalWord = needed("Its signal word in that class.")
    because: Reason | None = about("Why; needed if it lowers the word.")


class OffRow(Form):
    """A rule that is not run."""

    rule: Text = needed("The rule, such as tail/webbing.")
    because: Reason = needed("Why; printed at the foot of every report.")


class Policy(Form):
    """What a club changes of the defaults."""

    riglint: Literal["policy/1"] = needed("Kind and version of the document.")
    title: Text = needed("Whose policy it is.")
    note: Text | None = about("Anything a reader should know.")
    values: dict[str, Value] = about("Limits as <rule>.<name> and model values as model.<name>.", default={})
    required: list[RequiredRow] = about("Other required ratios.", default=[])
    signals: list[SignalRow] = about("Other signal words, each for one rule and class.", default=[])
    off: list[OffRow] = about("Rules that riglint doesn't run.", default=[])
    recalled: list[Text] = about("Gear that nobody may use, by its name in the gear list.", default=[])
