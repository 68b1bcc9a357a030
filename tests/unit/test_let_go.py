"""Results that are put on the disk read back as they were, and every report of them is the same."""

import os
import tempfile
from collections import Counter
from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from riglint.findings import Audit, audit
from riglint.findings.let_go import results, scratch, texts
from riglint.findings.let_go.gists import gists_of
from riglint.reports.audit.json_report import audit_json
from riglint.reports.audit.junit import audit_junit
from riglint.reports.audit.lines import audit_lines
from riglint.reports.audit.markdown import audit_markdown
from riglint.reports.audit.text import audit_text
from riglint.reports.layout.spans import characters
from riglint.rulebook import load_rulebook
from riglint.rulekit import Signal
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.summary import summary_of_rig

EXAMPLES = Path(__file__).parents[2] / "examples"
FOLDERS = [
    EXAMPLES / name for name in ("festival", "faulty/low-line.yaml", "faulty/highline-rope-backup.yaml")
]
ON = date(2026, 5, 2)
ALL = 1000


@pytest.fixture(scope="module")
def held() -> list[str]:
    """Every report of an audit that writes nothing to the disk."""
    return list(_reports(_audited(ALL)))


def _audited(most: int) -> Audit:
    usual = results.LetGo.__init__.__defaults__
    results.LetGo.__init__.__defaults__ = (most,)
    try:
        return audit(FOLDERS, load_rulebook(), ON, keep=summary_of_rig)
    finally:
        results.LetGo.__init__.__defaults__ = usual


def _reports(found: Audit) -> Iterator[str]:
    for one in (found, found.without_accepted()):
        yield characters(audit_text(one, 80, everything=True))
        yield audit_json(one)
        yield "".join(audit_junit(one, Signal.WARNING))
        yield "".join(audit_lines(one, EXAMPLES))
        yield audit_markdown(one, Signal.WARNING)
        yield str(one.status(Signal.WARNING))


def test_what_is_reworded_counts_as_before() -> None:
    found = for_a_reader(_audited(1))
    assert any(one.part_words for result in found.files for one in result.findings)
    for result in found.files:
        known = Counter(result.gists)
        assert known == Counter(gists_of(result.findings))


@pytest.mark.parametrize("most", [1, 3])
def test_reports_are_the_same_from_the_disk(
    held: list[str], most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    written = _counted(monkeypatch)
    found = _audited(most)
    assert len(written) > 5, "nothing was put on the disk"
    assert list(_reports(found)) == held


def _counted(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Count what the disk takes."""
    written: list[int] = []
    put = scratch.Scratch._written

    def counting(self: scratch.Scratch, raw: bytes) -> scratch.Taken:
        taken = put(self, raw)
        written.extend([1] if isinstance(taken, int) else [])
        return taken

    monkeypatch.setattr(scratch.Scratch, "_written", counting)
    return written


@pytest.mark.parametrize("room", [0, 5000])
def test_a_full_disk_costs_no_finding(held: list[str], room: int, monkeypatch: pytest.MonkeyPatch) -> None:
    left = [room]

    def poured(file: int, raw: bytes) -> int:
        taken = raw[: left[0]]
        left[0] -= len(taken)
        return os.write(file, taken)

    monkeypatch.setattr(scratch, "_poured", poured)
    found = _audited(1)
    assert left[0] == 0
    assert list(_reports(found)) == held


def test_no_folder_for_temporary_files_costs_no_finding(
    held: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(**_: object) -> object:
        raise FileNotFoundError("No usable temporary directory found")

    monkeypatch.setattr(tempfile, "TemporaryFile", refused)
    assert list(_reports(_audited(1))) == held


def test_what_is_changed_after_it_was_put_away_is_kept() -> None:
    found = _audited(1)
    rigs = [one for one in found.files if one.kind == "rig"]
    first, *others = rigs
    one, number = first.findings[0], len(first.findings)
    first.findings.append(one)
    for other in others:
        assert other.findings is not first.findings
    assert len(first.findings) == number + 1
    assert first.findings.count(one) == 2


def test_what_has_no_record_stays_in_memory() -> None:
    found = _audited(1)
    first, *others = (one for one in found.files if one.kind == "rig")
    for strange in (object(), Fraction(1, 3), "\udc80"):
        first.kept = strange
        for other in others:
            assert other.kept is not strange
        assert first.kept is strange


def test_texts_come_back_from_the_disk_and_without_one(monkeypatch: pytest.MonkeyPatch) -> None:
    written = _counted(monkeypatch)
    kept = texts.TextsLetGo(2)
    known = {Path(f"/{n}.yaml"): bytes([n]) * n for n in range(6)}
    kept.update(known)
    assert len(written) == 4
    monkeypatch.setattr(scratch, "_poured", lambda _file, _raw: 0)
    known |= {Path(f"/{n}.yaml"): bytes([n]) for n in range(4, 9)}
    kept.update(known)
    assert dict(kept) == known
    assert len(kept) == len(known)
    del kept[Path("/3.yaml")]
    assert Path("/3.yaml") not in kept


def test_a_long_report_comes_back_from_its_pages() -> None:
    pages = scratch.Pages()
    pieces = [f"{n} é \udc80\n" * 500 for n in range(400)]
    for piece in pieces:
        pages.add(piece)
    assert "".join(pages) == "".join(pieces) == "".join(pages)
