"""Runs the examples of rules: each is one change of a sound rig, and says what the rule must answer.

Used by riglint's own tests and by those who write rules of their own. Nothing here needs a test framework.
"""

import re
import sys
from collections.abc import Iterable
from copy import deepcopy
from datetime import date
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import yaml

from riglint.findings import Finding, judge
from riglint.findings.library.across_rigs import judge_library
from riglint.loadpath import build
from riglint.loads import Loads
from riglint.model.library import Library, RigFile
from riglint.model.references import resolve
from riglint.policy import DEFAULT, InForce
from riglint.read.yaml_text import read_yaml, resolved
from riglint.records import dataclass
from riglint.rulebook import Rulebook, load_folder
from riglint.rulekit import Case, Example, LibraryCase, Remedy, Rule, Signal
from riglint.rulekit.examples import Inserted, Removed

BASELINES = Path(__file__).parent / "baselines"
STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")
RIG = Path("/example/rig.yaml")
MOST_KEPT = 2000  # rigs; many rules start from the same one, which is then read and computed once
# Without libyaml it takes ten times as long.
DUMPER = yaml.CSafeDumper if yaml.__with_libyaml__ else yaml.SafeDumper


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a rule said of one example, and what is wrong with that; empty if nothing is."""

    example: Example
    findings: tuple[Finding, ...]
    wrong: str


def baseline_names() -> tuple[str, ...]:
    """Return the names of the sound rigs that examples may start from."""
    return tuple(sorted(path.stem for path in BASELINES.glob("*.yaml")))


def edited(example: Example) -> str:
    """Return the text of an example's rig: its baseline with the edits made.

    Raises:
        KeyError: an edit names a key that the baseline does not have.
    """
    return as_text(edited_data(example.baseline, example.edits))


def as_text(data: Any) -> str:
    """Return data as the text of a file, in the order in which it stands."""
    text: str = yaml.dump(data, Dumper=DUMPER, sort_keys=False, allow_unicode=True, width=1000)
    return text


def with_remedy(text: str, remedy: Remedy) -> str:
    """Return the text of a rig with a remedy written into it.

    Raises:
        ValueError: the text cannot be read.
    """
    document, problems = read_yaml(text.encode(), RIG.name)
    if document is None:
        raise ValueError(str(problems))
    data: Any = resolved(document.data)
    for edit in remedy.edits:
        edit_value(data, edit.at.key_text, yaml.safe_load(edit.new))  # a number without a unit is no text
    return as_text(data)


def run_example(rule_id: str, rule: Rule, example: Example) -> Outcome:
    """Run one rule over one example."""
    force = InForce(recalled=frozenset(example.recalled))
    if rule.each.library:
        found = judge_library(library_of(example, force), Rulebook({rule_id: rule}), force)
        return Outcome(example, tuple(found), _wrong(example, rule, tuple(found)))
    found = findings_of(edited(example), {rule_id: rule}, example.on, force)
    findings = tuple(one for one in found if rule_id in {one.rule, *one.rules})
    return Outcome(example, findings, _wrong(example, rule, findings))


def findings_of(text: str, rules: dict[str, Rule], on: str, force: InForce = DEFAULT) -> list[Finding]:
    """Return what some rules say of a rig that stands whole in one text, without looking for remedies.

    Raises:
        ValueError: the text is no rig that can be judged.
    """
    day = date.fromisoformat(on)
    rig = rig_of(text)
    # A rule is shown what stands in the file, and nothing that is assumed of it.
    loads = loads_of(text, day) if force.values == DEFAULT.values else Loads(build(rig), force.values, day)
    return judge(rig, Rulebook(rules), day, force, loads, with_remedies=False).findings


def library_of(example: Example, force: InForce) -> LibraryCase:
    """Return the library of an example: its rig and those beside it, with one spot and one shelf where they agree."""
    library, day = Library(RIG.parent), date.fromisoformat(example.on)
    rigs = [edited_data(example.baseline, edits) for edits in (example.edits, *example.beside)]
    spot, shelf = rigs[0]["spot"], rigs[0]["shelf"][0]
    held = {"spot.yaml": {"riglint": "spot/1", **spot}, "shelf.yaml": {"riglint": "shelf/1", **shelf}}
    for n, rig in enumerate(rigs):
        rig["shelf"] = ["shelf.yaml"] if rig["shelf"] == [shelf] else rig["shelf"]
        rig["spot"] = "spot.yaml" if rig["spot"] == spot and "title" in spot else rig["spot"]
        held[f"rig-{n + 1}.yaml"] = rig
    loaded = {name: library.take(RIG.parent / name, as_text(data).encode()) for name, data in held.items()}
    cases = []
    for name in list(held)[2:]:
        rig_file, problems, _ = resolve(library, RIG.parent / name)
        if rig_file is None:
            raise ValueError("; ".join(f"{one.key}: {one.message}" for one in problems))
        cases.append(Case(Loads(build(rig_file), force.values, day), day, force.limits, force.recalled))
    return LibraryCase(tuple(cases), (loaded["shelf.yaml"],), day, force.limits, force.recalled)


def edited_data(baseline: str, edits: Iterable[tuple[str, Any]]) -> Any:
    """Return the data of a sound rig with some edits made."""
    data: Any = resolved(_baseline(baseline).data)
    for key, value in edits:
        edit_value(data, key, value)
    return data


@lru_cache(MOST_KEPT)
def rig_of(text: str) -> RigFile:
    """Return the rig that stands whole in one text.

    Raises:
        ValueError: the text is no rig that can be judged.
    """
    library = Library(RIG.parent)
    library.take(RIG, text.encode())
    rig, problems, _ = resolve(library, RIG)
    if rig is None:
        raise ValueError("; ".join(f"{one.key}: {one.message}" for one in problems))
    return rig


@lru_cache(MOST_KEPT)
def loads_of(text: str, on: date) -> Loads:
    """Return the loads of the rig that stands in one text, with riglint's own values in force.

    Raises:
        ValueError: the text is no rig that can be judged.
    """
    return Loads(build(rig_of(text)), DEFAULT.values, on)


def _wrong(example: Example, rule: Rule, findings: tuple[Finding, ...]) -> str:
    """Say how the findings differ from the verdict that the example states."""
    crashed = [finding.message for finding in findings if finding.crashed]
    if crashed:
        return crashed[0]
    expected = _expected(example, rule, findings)
    phrases = [f"{one.kind} {one.signal.name} at {one.at.key}: {one.message}" for one in findings]
    return f"expected {expected}, got {phrases or 'nothing'}" if expected else ""


def _expected(example: Example, rule: Rule, findings: tuple[Finding, ...]) -> str:
    """Return what the findings lack of the verdict that the example states; empty if nothing."""
    if example.verdict == "sound":
        # A review that every rig has is no fault; anything else is.
        loud = [one for one in findings if one.kind != "review" or one.signal > Signal.NOTICE]
        return "nothing" if loud else ""
    wanted = {"faulty": "fail", "open": "open", "review": "review"}[example.verdict]
    matching = [one for one in findings if one.kind == wanted]
    if not matching:
        return wanted
    if {one.kind for one in findings} - {wanted, "review"}:
        return f"only {wanted}"
    if example.at is not None and not any(example.at in {one.at.key, one.at.part} for one in matching):
        return f"it at {example.at}"
    return _expected_word(example, rule, matching)


def _expected_word(example: Example, rule: Rule, matching: list[Finding]) -> str:
    if example.signal is not None and not any(one.signal == example.signal for one in matching):
        return example.signal.name
    # An open question carries the worst word that its rule could give.
    if example.verdict == "open" and any(one.signal < rule.signal for one in matching):
        return f"the rule's word {rule.signal.name} or worse"
    return ""


@cache
def _baseline(name: str) -> Any:
    path = BASELINES / f"{name}.yaml"
    document, problems = read_yaml(path.read_bytes(), path.name)
    if document is None or problems:
        raise ValueError(f"the baseline {name} cannot be read: {problems}")
    return document


def _steps(key: str) -> list[str | int]:
    return [int(number) if number else word for word, number in STEP.findall(key)]


def edit_value(data: Any, key: str, value: Any) -> None:
    """Write one value into data, at a key such as `chain[4].tail`; take it away, or put parts in before it.

    Raises:
        KeyError: the data has no place for the key.
    """
    *way, last = _steps(key)
    at = data
    for step in way:
        at = at[step]
    if isinstance(value, Removed):
        if isinstance(at, list):
            at.pop(int(last))
        else:
            at.pop(last, None)  # a key that is not there is away already
    elif isinstance(value, Inserted):
        at[last:last] = [dict(entry) for entry in value.entries]
    else:
        at[last] = deepcopy(value)  # examples share their edits


def failed_examples(folder: Path) -> list[str]:
    """Return a sentence for each example of a folder of rules that comes out otherwise than it says; [] if none.

    Raises:
        RuleSetError: a rule does not load.
    """
    rules = dict(load_folder(folder, f"riglint.house.{folder.resolve().name}"))
    outcomes = [(name, run_example(name, rule, one)) for name, rule in rules.items() for one in rule.examples]
    return [
        f"{name}: {out.wrong} ({out.example.verdict}, {out.example.edits})"
        for name, out in outcomes
        if out.wrong
    ]


if __name__ == "__main__":
    for folder_name in sys.argv[1:]:
        failed = failed_examples(Path(folder_name))
        print(*failed, f"{folder_name}: {len(failed)} examples came out otherwise than they say.", sep="\n")  # noqa: T201
        if failed:
            sys.exit(1)
