"""What is in force: the rulebook and the model values as a club's policy leaves them, and what it changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from riglint.model.load import kind_of, load_as
from riglint.model.sentences import Key
from riglint.model.values.defaults import DEFAULTS, Default, bounds_of
from riglint.model.values.policy import Values
from riglint.model.values.ratios import NEVER, PEAK
from riglint.model.vocabulary.fields import DECIMAL
from riglint.model.vocabulary.words import Consequence
from riglint.read.document import Document
from riglint.read.library import read_bytes
from riglint.read.problems import Problem, key_text, shown
from riglint.read.quantity import LONGEST_NUMBER, QuantityError, parse_quantity
from riglint.read.spelling import nearest
from riglint.read.yaml_text import read_yaml
from riglint.records import dataclass
from riglint.rulebook import Rulebook
from riglint.rulekit import Limit, Rule, Signal

if TYPE_CHECKING:
    from riglint.model.documents.policy_file import Policy


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a policy changed."""

    name: str
    old: str
    new: str
    because: str | None
    loosens: bool


@dataclass(frozen=True, slots=True)
class Mark:
    """The mark file of a library, and what it sets, in words: every report begins with them."""

    path: str
    sha256: str
    sets: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class InForce:
    """What rigs are judged by."""

    values: Values = field(default_factory=Values)
    limits: dict[str, float] = field(default_factory=dict)  # <rule>.<name>, SI
    words: dict[tuple[str, Consequence], Signal] = field(default_factory=dict)
    off: frozenset[str] = frozenset()
    recalled: frozenset[str] = frozenset()
    changes: tuple[Change, ...] = ()
    title: str = "standard limits"
    path: str | None = None
    sha256: str | None = None
    emptied: tuple[str, ...] = ()  # families of rules of which none is left on
    none_left: bool = False  # whether no rule at all is left on
    marks: tuple[Mark, ...] = ()  # of the libraries whose settings are in force
    units: str | None = None  # of the reports, as a library sets them

    def word(self, rule_id: str, rule: Rule, consequence: Consequence, own: Signal | None = None) -> Signal:
        """Return the signal word of a finding: the rule's, as the policy leaves it.

        Args:
            rule_id: the rule.
            rule: the same.
            consequence: what a failure would mean.
            own: the word that the rule itself gave this finding, where it grades its findings. A policy moves
                what stands at the rule's word; where it raises that word, graver findings do not stay below it.
        """
        base = rule.at(consequence)
        new = self.words.get((rule_id, consequence), base)
        if own is None or own == base:
            return new
        return max(own, new) if own > base else own


DEFAULT = InForce()


def load_policy(
    path: Path, book: Rulebook, called: str | None = None
) -> tuple[InForce | None, list[Problem]]:
    """Return what a policy file puts in force, or None and every problem with it; `called` is its name for people."""
    raw, problems = read_bytes(path)
    return policy_from(raw, called or path.as_posix(), book) if raw is not None else (None, problems)


def policy_from(raw: bytes, path: str, book: Rulebook) -> tuple[InForce | None, list[Problem]]:
    """Return what `load_policy` does for a file's bytes; `path` is how it is named to people."""
    from riglint.model.documents.policy_file import Policy  # noqa: PLC0415 - only a run with a policy pays for its models

    document, problems = read_yaml(raw, path)
    if document is None:
        return None, problems
    kind, wrong = kind_of(document)
    if kind != "policy":
        message = f"This is a {kind} document. Expected a policy."
        other = Problem(
            "file/kind", document.place(("riglint",)), "riglint", message, "Name a file of kind policy/1."
        )
        return None, [*problems, wrong or other]
    policy, more = load_as(document, Policy, "policy")
    if policy is None or problems:
        return None, [*problems, *more]
    force, wrongs = in_force(policy, document, book)
    return (None, wrongs) if wrongs else (force, [])


def in_force(policy: Policy, document: Document, book: Rulebook) -> tuple[InForce, list[Problem]]:
    """Return what a policy puts in force, or every problem with it."""
    reader = _Reader(document, book)
    values, limits = reader.values(policy)
    ratios = reader.ratios(policy)
    words = reader.words(policy)
    off = reader.off(policy)
    recalled = reader.recalled(policy)
    return InForce(
        Values(values, ratios),
        limits,
        words,
        off,
        recalled,
        tuple(reader.changes),
        policy.title,
        document.path,
        sha256(document.text.encode()).hexdigest(),
        emptied_families(book, off),
        none_left=off >= book.rules.keys(),
    ), reader.problems


def emptied_families(book: Rulebook, off: frozenset[str]) -> tuple[str, ...]:
    """Return the families of rules, such as `tail`, of which every one is off."""
    families: dict[str, set[str]] = {}
    for rule_id in book.rules:
        families.setdefault(rule_id.rpartition("/")[0], set()).add(rule_id)
    return tuple(sorted(name for name, rules in families.items() if rules <= off))


class _Reader:
    """Reads one policy against the rulebook."""

    def __init__(self, document: Document, book: Rulebook) -> None:
        self.document, self.book = document, book
        self.problems: list[Problem] = []
        self.changes: list[Change] = []

    def _wrong(self, key: Key, message: str, do: str, *instead: str, of_key: bool = False) -> None:
        place = self.document.key_places[key] if of_key else self.document.place(key)
        self.problems.append(Problem("file/policy", place, key_text(key), message, do, instead))

    def _unknown(self, key: Key, what: str, name: str, known: list[str]) -> None:
        suggestion = nearest(name, known)
        do = f"Write `{suggestion}` if you mean that." if suggestion else "`riglint rulebook` lists them all."
        of_key = key[0] == "values"  # the misspelt name is a key there
        self._wrong(key, f"'{name}' is no {what}.", do, *([suggestion] if suggestion else []), of_key=of_key)

    def _changed(
        self, key: Key, name: str, old: str, new: str, because: str | None, *, loosens: bool
    ) -> None:
        if loosens and not because:
            do = (
                f"Write {{value: {new}, because: …}}."
                if key[0] == "values"
                else "Add because: … to the entry."
            )
            self._wrong(key, f"{name} is loosened from {old} to {new} without a reason.", do)
        self.changes.append(Change(name, old, new, because, loosens))

    def values(self, policy: Policy) -> tuple[dict[str, float], dict[str, float]]:
        """Return changed model values and changed limits, SI, by name."""
        values: dict[str, float] = {}
        limits: dict[str, float] = {}
        known = {f"{rule}.{limit.name}": limit for rule, limit in _limits(self.book)}
        for name, written in policy.values.items():
            key: Key = ("values", name)
            text, because = (written, None) if isinstance(written, str) else (written.value, written.because)
            default = DEFAULTS.get(name.removeprefix("model.")) if name.startswith("model.") else None
            target = default or known.get(name)
            if target is None:
                self._unknown(
                    key, "limit or model value", name, [*known, *(f"model.{one}" for one in DEFAULTS)]
                )
                continue
            value = self._number(key, text, target)
            if value is None or value == target.si:  # the default, written out, changes nothing
                continue
            loosens = value < target.si if target.tighter == "higher" else value > target.si
            self._changed(key, name, target.text, text, because, loosens=loosens)
            (values if default else limits)[name.removeprefix("model.")] = value
        return values, limits

    def _number(self, key: Key, text: str, target: Limit | Default) -> float | None:
        """Return a value in SI units; None, with the problem noted, where it cannot be one."""
        problem: tuple[str, ...] | None = None
        value = 0.0
        if target.dimension is not None:
            try:
                value = parse_quantity(text, target.dimension).si
            except QuantityError as error:
                problem = error.message, error.do, *error.right
        elif DECIMAL.fullmatch(text) and len(text) <= LONGEST_NUMBER:
            value = float(text)
        else:
            what = f"Expected a plain number, found {shown(text)}."
            problem = what, "Write a decimal number without a unit, such as 2.5."
        bounds = bounds_of(str(key[-1]).removeprefix("model.")) if isinstance(target, Default) else None
        problem = problem or _out_of_range(value, text, target, bounds)
        if problem is not None:
            self._wrong(key, f"{key[-1]}: {problem[0]}", *problem[1:])
            return None
        return value

    def ratios(self, policy: Policy) -> dict[tuple[str, Consequence], float]:
        """Return changed required ratios."""
        found: dict[tuple[str, Consequence], float] = {}
        for n, row in enumerate(policy.required):
            key: Key = ("required", n)
            if row.part not in PEAK:
                self._unknown((*key, "part"), "class of parts", row.part, list(PEAK))
                continue
            old = PEAK[row.part].at(row.consequence)
            if row.ratio == old:
                continue
            if row.ratio <= 0:
                self._wrong(
                    (*key, "ratio"),
                    f"A ratio of {row.ratio:g} requires nothing.",
                    "Write a number above zero.",
                )
                continue
            name = f"required ratio of {row.part} at {row.consequence}"
            was = "none" if old is None else "never" if old == NEVER else f"{old:g}"
            loosens = old is not None and row.ratio < old
            self._changed(key, name, was, f"{row.ratio:g}", row.because, loosens=loosens)
            found[(row.part, row.consequence)] = row.ratio
        return found

    def words(self, policy: Policy) -> dict[tuple[str, Consequence], Signal]:
        """Return changed signal words."""
        found: dict[tuple[str, Consequence], Signal] = {}
        for n, row in enumerate(policy.signals):
            key: Key = ("signals", n)
            rule = self.book.rules.get(row.rule)
            if rule is None:
                self._unknown((*key, "rule"), "rule", row.rule, list(self.book.rules))
                continue
            old, new = rule.at(row.consequence), Signal[row.signal]
            if new == old:
                continue
            name = f"signal word of {row.rule} at {row.consequence}"
            self._changed(key, name, old.name, new.name, row.because, loosens=new < old)
            found[(row.rule, row.consequence)] = new
        return found

    def off(self, policy: Policy) -> frozenset[str]:
        """Return the rules that are not run."""
        found = set()
        for n, row in enumerate(policy.off):
            if row.rule not in self.book.rules:
                self._unknown(("off", n, "rule"), "rule", row.rule, list(self.book.rules))
                continue
            self._changed(("off", n), row.rule, "on", "off", row.because, loosens=True)
            found.add(row.rule)
        return frozenset(found)

    def recalled(self, policy: Policy) -> frozenset[str]:
        """Return the gear that is not to be used."""
        for n, name in enumerate(policy.recalled):
            self._changed(("recalled", n), f"gear {name}", "in use", "recalled", None, loosens=False)
        return frozenset(policy.recalled)


def _out_of_range(
    value: float, text: str, target: Limit | Default, bounds: tuple[float, float] | None = None
) -> tuple[str, str] | None:
    """Say what is wrong with a value that no rule and no formula could work with, and what to write."""
    if value < 0:
        return f"{text} is below zero.", "Write a value of zero or more."
    if bounds is not None and not bounds[0] <= value <= bounds[1] and not target.si < 1 < value:
        allowed = f"{bounds[0]:g} to {bounds[1]:g}"
        return f"{text} is outside {allowed}, the range of the formulas.", f"Write a value of {allowed}."
    if isinstance(target, Limit) or target.dimension is not None:
        return None
    if value == 0:
        return f"{text} would divide by zero, or credit nothing at all.", "Write a number above zero."
    if target.si < 1 < value:  # shares of a strength or a tension, and friction of rope on bark
        return (
            f"{text} is more than the whole. Expected a share.",
            f"Write 1 or less, such as {target.text}.",
        )
    return None


def _limits(book: Rulebook) -> Iterator[tuple[str, Limit]]:
    for rule_id, rule in book.rules.items():
        for limit in rule.limits:
            yield rule_id, limit
