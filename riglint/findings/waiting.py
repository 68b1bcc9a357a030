"""What rules wait for: a field that does not say what they ask, and what to write there."""

from __future__ import annotations

from dataclasses import field

from riglint.loads.inputs import Advised, At, Unanswered
from riglint.model.load import MODELS
from riglint.model.sentences import belongs_at
from riglint.records import dataclass
from riglint.rulekit import Signal


@dataclass(slots=True)
class Waiting:
    """A field, and the rules that wait for it, each with its word."""

    at: At
    rules: dict[str, Signal] = field(default_factory=dict)
    asked: dict[str, None] = field(default_factory=dict)  # what of the field, where it is filled in
    advice: dict[str, None] = field(default_factory=dict)  # what to look for, as the other values tell

    def add(self, at: At, rule_id: str, word: Signal) -> None:
        """Let a rule wait here; the same rule may for several parts."""
        self.rules[rule_id] = max(word, self.rules.get(rule_id, word))
        if isinstance(at, Unanswered) and at.of:
            self.asked[at.of] = None
        if isinstance(at, Advised):
            self.advice[at.advice] = None

    @property
    def lacking(self) -> str:
        """What is missing, for the beginning of a sentence."""
        if not isinstance(self.at, Unanswered):
            return f"'{self.at.key_text}' is not filled in"
        return " ".join((f"'{self.at.key_text}'", self.at.lacks, ", ".join(self.asked))).strip()

    @property
    def do(self) -> str:
        """What to do about it, and where."""
        return self.at.do if isinstance(self.at, Unanswered) else " ".join((fill_in(self.at), *self.advice))

    @property
    def asks(self) -> str:
        """What belongs at the field, in words; empty where the model says nothing of it."""
        if isinstance(self.at, Unanswered):
            return " ".join((self.at.lacks, ", ".join(self.asked))).strip()
        return _belongs(self.at)


def fill_in(at: At) -> str:
    """Say what to write at a field, and where."""
    belongs = _belongs(at)
    what = f" ({belongs})" if belongs else ""
    return f"Fill in {at.key_text}{what} in {at.path}, line {at.line}."


def _belongs(at: At) -> str:
    model = MODELS.get(str(at.document.data.get("riglint")).partition("/")[0])
    belongs = belongs_at(model, at.key) if model else ""
    return f"{belongs[:1].lower()}{belongs[1:]}"
