"""What a rule is, and how a function becomes one."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, Generic, Literal, TypeVar

from riglint.hazards import Phase, known
from riglint.model.values.sources import OWN, Source
from riglint.model.vocabulary.words import Consequence
from riglint.records import dataclass
from riglint.rulekit.examples import Example
from riglint.rulekit.verdicts import Fault, Limit, Signal

if TYPE_CHECKING:
    from riglint.rulekit.case import Case
    from riglint.rulekit.library import LibraryCase

S = TypeVar("S")
C = TypeVar("C", "Case", "LibraryCase")


@dataclass(frozen=True, slots=True)
class Each(Generic[S]):
    """Which subjects of a rig a rule looks at, one by one."""

    words: str
    of: Callable[[Any], Iterable[S]]  # of a Case, or of a LibraryCase
    shared: bool = False  # whether a fault belongs to a shared file rather than to one rig
    library: bool = False  # whether it looks at all rigs of a library together
    of_company: Callable[[Any], Iterable[S]] | None = None  # of the rigs that stand together at one spot
    of_shelf: Callable[[Any], Iterable[S]] | None = None  # of one gear list and the rigs that use it


@dataclass(frozen=True, slots=True)
class OnCard:
    """How the checks of a rule stand on the card for the tree."""

    phase: Phase | None = None  # where the work is done, if that is not where the accident would happen
    second_person: bool = False  # whether a second person looks as well
    do_alone: bool = False  # whether `do` says all, so that the message need not stand before it
    advice: bool = False  # whether its reviews read the same on every rig of the kind: an audit counts them
    closing: str = ""  # what is looked at again on every line with a pulley system, before anybody walks
    closing_with: Literal["brake", "multiplier"] = "brake"  # which part the pulley system must have for that


Due = Literal["months after the last check", "years of age"]


ON_CARD = OnCard()  # where a rule says nothing of it


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: what it reads, compares, says and rests on. Its id is its path in the rulebook."""

    title: str
    each: Each[Any]
    check: Callable[[Any, Any], Iterable[Fault]]
    signal: Signal
    raised: tuple[tuple[Consequence, Signal], ...]
    worst: Signal
    why: str
    formula: str
    limits: tuple[Limit, ...]
    sources: tuple[Source, ...]
    examples: tuple[Example, ...]
    prevents: tuple[str, ...] = ()
    on_card: OnCard = ON_CARD
    explains: bool = False
    tells: tuple[str, ...] = ()
    judges_reading: bool = False
    beside_rigs: bool = False
    due: Due | None = None

    def at(self, consequence: Consequence) -> Signal:
        """The rule's word at a consequence class."""
        return dict(self.raised).get(consequence, self.signal)

    @property
    def source(self) -> Source:
        """What its findings rest on unless they say so themselves: its first limit's source, else its first."""
        return next((limit.source for limit in self.limits), next(iter(self.sources), OWN))


def rule(
    *,
    title: str,
    each: Each[S],
    signal: Signal,
    why: str,
    formula: str,
    examples: tuple[Example, ...],
    prevents: tuple[str, ...] = (),
    limits: tuple[Limit, ...] = (),
    sources: tuple[Source, ...] = (),
    raised: dict[Consequence, Signal] | None = None,
    worst: Signal | None = None,
    on_card: OnCard = ON_CARD,
    explains: bool = False,
    tells: tuple[str, ...] = (),
    judges_reading: bool = False,
    beside_rigs: bool = False,
    due: Due | None = None,
) -> Callable[[Callable[[C, S], Iterable[Fault]]], Rule]:
    """Make a rule of a function that judges one subject of a case.

    Args:
        title: what is wrong, as a heading.
        each: the subjects it judges: `parts(...)`, `each_load`, `each_item(...)`, `anchors(...)`, `the_haul`,
            `the_rig`.
        signal: its word at consequence `ground`.
        raised: its word at `fall` and `life`, where that is another.
        worst: the worst word that it can say of its own accord; an open question carries at least that.
        why: the accident that it prevents.
        formula: what is compared, in words and symbols.
        prevents: the hazards of `riglint.hazards` that it catches, or part of them. A rule of riglint's own names at
            least one.
        limits: every number it compares with.
        sources: sources beside those of the limits.
        examples: sound, faulty, one open for each input, and a pair just under and just over each limit.
        on_card: how its checks stand on the card, where the usual is not right.
        explains: whether it tells in full why a rig cannot be computed, so that no other rule need say so.
        tells: reasons why something cannot be computed that this rule alone tells where it finds fault.
        judges_reading: whether its one limit is how far a reading may be off the plan; the card prints it.
        beside_rigs: whether it speaks only of a library with rigs: a shelf alone is judged in full without it.
        due: which time of a piece its one limit is; `riglint gear` lists by it when a piece is due.

    Raises:
        ValueError: `prevents` names what is no hazard, or an example shows one that the rule does not prevent.
    """
    known(prevents)
    shown = [hazard for example in examples for hazard in example.shows]
    for hazard in shown:
        if hazard not in prevents:
            raise ValueError(f"An example shows '{hazard}', which the rule does not name in `prevents`.")

    def make(check: Callable[[C, S], Iterable[Fault]]) -> Rule:
        words = tuple((raised or {}).items())
        return Rule(
            title,
            each,
            check,
            signal,
            words,
            worst or signal,
            why,
            formula,
            limits,
            sources,
            examples,
            prevents,
            on_card,
            explains,
            tells,
            judges_reading,
            beside_rigs,
            due,
        )

    return make
