"""Twice as many rigs make twice the work, not four times: calls of functions are counted, never seconds.

Each rig is judged once and told of under many names, so that what comes after the judging is what counts here: rules
for whole libraries, what shared files gather, and every form of the report.
"""

from __future__ import annotations

import cProfile
from collections.abc import Callable
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from riglint.findings import Audit, audit, auditing
from riglint.findings.library import as_record, examined
from riglint.findings.library.examined import Examined, Terms, examine
from riglint.model import library as library_module
from riglint.model.library import Library
from riglint.reports.audit.json_report import json_of
from riglint.reports.audit.junit import audit_junit
from riglint.reports.audit.lines import audit_github, audit_gitlab, audit_lines
from riglint.reports.audit.markdown import audit_markdown
from riglint.reports.audit.sarif import audit_sarif
from riglint.reports.audit.text import audit_text
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal
from riglint.rulekit.facts import FACTS
from riglint.testing import edited_data
from riglint.views.audit.summary import Summary, summary_of_rig
from tests.cli.calling import write

ON = date(2026, 5, 2)
FEW, TIMES = 30, 4
MOST = 1.25  # of what even growth would be
BOOK = load_rulebook()
FORMS: dict[str, Callable[[Audit], object]] = {
    "text": lambda found: list(audit_text(found, 80)),
    "json": lambda found: list(json_of(found)),
    "junit": lambda found: list(audit_junit(found, Signal.WARNING)),
    "lines": lambda found: list(audit_lines(found, Path("/"))),
    "github": lambda found: audit_github(found, Signal.WARNING),
    "gitlab": audit_gitlab,
    "markdown": lambda found: audit_markdown(found, Signal.WARNING),
    "sarif": lambda found: audit_sarif(found, BOOK, Signal.WARNING),
    "status": lambda found: found.status(Signal.WARNING),
    "without accepted": lambda found: list(json_of(found.without_accepted())),
}


def calls_of(work: Callable[[], object]) -> int:
    """Count the calls of functions, those of the interpreter itself included."""
    profile = cProfile.Profile()
    profile.runcall(work)
    return sum(one.callcount for one in profile.getstats())


class Counted(NamedTuple):
    """An audit, and the work that it took."""

    audit: Audit
    calls: int
    parsed: int

    @classmethod
    def of(cls, folder: Path, parsed: list[int]) -> Counted:
        """Audit a library, and count."""
        audits: list[Audit] = []
        calls = calls_of(lambda: audits.append(audit([folder], BOOK, ON, keep=summary_of_rig)))
        return cls(audits[0], calls, parsed[0])


def write_rigs(folder: Path, number: int) -> Path:
    """Write a library of rigs at one spot, each on a day of its own, that all name one shelf with faults."""
    rig = edited_data("low", ())
    shelf = {**rig["shelf"][0]}
    shelf["items"] = {name: _unchecked(item) for name, item in shelf["items"].items()}
    write(folder / "rig-library", "")
    write(folder / "spot.yaml", str(yaml.safe_dump({"riglint": "spot/1", **rig["spot"]}, sort_keys=False)))
    write(folder / "shelf.yaml", str(yaml.safe_dump({"riglint": "shelf/1", **shelf}, sort_keys=False)))
    for n in range(number):
        day = (ON + timedelta(days=7 + n)).isoformat()
        data = {**edited_data("low", (("plan.first_day", day),)), "title": f"Line {n:04}"}
        data |= {"spot": "../spot.yaml", "shelf": ["../shelf.yaml"]}
        write(folder / "rigs" / f"{n:04}.yaml", str(yaml.safe_dump(data, sort_keys=False)))
    return folder


def _unchecked(item: dict[str, Any]) -> dict[str, Any]:
    """Return a piece of gear whose last check was long ago."""
    return {**item, "inspected": "2019-02-22"} if "inspected" in item else item


@pytest.fixture(scope="module")
def told_once() -> Callable[[Library, Path, Terms], Examined]:
    """Give what stands in for examining a rig: the first one is judged, the others say the same."""
    records = as_record.Records((Summary,))
    texts: list[str] = []

    def told(library: Library, file: Path, terms: Terms) -> Examined:
        if file.parent.name != "rigs":
            return examine(library, file, terms)
        n = int(file.stem)
        if not texts:
            found = examine(library, file, terms)
            assert found.rig is not None
            told = {name: getattr(found, name) for name in ("read", "kind", "path", "title", "refers_to")}
            rig = {
                name: getattr(found.rig, name)
                for name in ("findings", "not_judged", "answered", "unanswered", "rules", "kept")
            }
            facts = {fact.__name__: value for fact, value in found.rig.facts.items()}
            texts.append(records.text((told, rig, facts)).decode())
        day = (ON + timedelta(days=7 + n)).isoformat()
        first = (ON + timedelta(days=7)).isoformat()
        text = texts[0].replace("0000", f"{n:04}").replace(first, day)
        held, rig, facts = records.value(text.encode())
        named = {fact: facts[fact.__name__] for fact in FACTS if fact.__name__ in facts}
        return Examined(file, **held, rig=examined.ExaminedRig(**rig, facts=named))

    return told


@pytest.fixture(scope="module")
def libraries(
    tmp_path_factory: pytest.TempPathFactory, told_once: Callable[[Library, Path, Terms], Examined]
) -> dict[int, Counted]:
    """Audits of few and of many rigs, with the calls of each and the files that were parsed for it."""
    found = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(auditing, "examine", told_once)
        for number in (3, FEW, FEW * 2, FEW * TIMES):  # the first fills what is worked out once
            folder = write_rigs(tmp_path_factory.mktemp("rigs"), number)
            parsed = [0]
            patch.setattr(library_module, "read_yaml", _counting(parsed, vars(library_module)["read_yaml"]))
            found[number] = Counted.of(folder, parsed)
    return found


def _counting(count: list[int], work: Callable[..., Any]) -> Callable[..., Any]:
    work = getattr(work, "counted", work)

    def counting(*given: Any) -> Any:
        count[0] += 1
        return work(*given)

    counting.counted = work  # type: ignore[attr-defined]
    return counting


def test_the_rigs_share_faults(libraries: dict[int, Counted]) -> None:
    found = libraries[FEW].audit
    shared = [one for result in found.files if result.kind == "shelf" for one in result.findings]
    assert sum(len(one.rigs) == FEW for one in shared) > 1


def test_an_audit_grows_with_its_rigs(libraries: dict[int, Counted]) -> None:
    few, more, many = (libraries[FEW * times] for times in (1, 2, TIMES))
    even = (TIMES - 2) / (2 - 1)
    assert many.calls - more.calls < MOST * even * (more.calls - few.calls)
    assert many.parsed - more.parsed <= MOST * even * (more.parsed - few.parsed)


@pytest.mark.parametrize("form", FORMS)
def test_a_report_grows_with_its_rigs(form: str, libraries: dict[int, Counted]) -> None:
    few, many = (calls_of(partial(FORMS[form], libraries[n].audit)) for n in (FEW, FEW * TIMES))
    assert many < MOST * TIMES * few
