"""Of a library in which one file was changed, only what rests on that file is judged again."""

import json
import shutil
from dataclasses import replace
from pathlib import Path
from zlib import compress

import pytest

from riglint.findings import audit
from riglint.findings.let_go.bodies import HeldResult
from riglint.findings.let_go.gists import gists_of
from riglint.findings.library.as_record import NoRecordError, Records, canonical
from riglint.findings.library.auditor import Auditor
from riglint.findings.library.examined import Examined, at_once
from riglint.findings.library.remembered_files import RememberedFiles, _told
from riglint.model.library import Library
from riglint.remembered.records import unpacked
from riglint.rulebook import Rulebook, load_rulebook
from riglint.rulekit.facts import plan
from riglint.views.audit.summary import Summary, summary_of_rig
from tests.cli.calling import CHECKOUT, DAY, club_of, git
from tests.remembered.asking import Memory
from tests.remembered.conftest import RIG, SHELF, SPOT
from tests.rigs import ON

OTHER, ITS_SPOT = "rigs/06-trickline.yaml", "spots/fairground.yaml"


@pytest.fixture
def club_of_two(of_folder: Memory, club: Path) -> Memory:
    club_of(club, OTHER, ITS_SPOT)
    shutil.copy(club / RIG, club / "rigs/again.yaml")
    return of_folder


def rewritten(memory: Memory) -> set[str]:
    """Call with whole answers forgotten, and return the paths of the files that were examined again."""
    for record in memory.records():
        record.unlink()
    before = {one: one.stat().st_ino for one in memory.of_files()}
    assert memory.ask() == memory.afresh()
    now = {one: one.stat().st_ino for one in memory.of_files()}
    changed = [one for one, number in now.items() if before.get(one) != number]
    return {path_in(one) for one in changed}


def path_in(record: Path) -> str:
    answer = unpacked(record.name.encode(), record.read_bytes())
    assert answer is not None
    told, _ = Records((Summary,)).value(answer.chunks[0][1])
    return str(told["path"])


ALL = {RIG, OTHER, "rigs/again.yaml", SPOT, ITS_SPOT, SHELF}


def test_what_is_unchanged_is_not_examined_again(club_of_two: Memory) -> None:
    club_of_two.fill()
    assert {path_in(one) for one in club_of_two.of_files()} == ALL
    assert rewritten(club_of_two) == set()


def test_a_call_that_writes_files_knows_what_it_found_in_each_rig(club_of_two: Memory, club: Path) -> None:
    club_of_two.fill()
    written = club / "report.json"
    club_of_two.call += ["--write", f"json={written}"]
    assert rewritten(club_of_two) == set()
    known = written.read_bytes()
    written.unlink()
    assert club_of_two.afresh()[0] == 0
    assert written.read_bytes() == known
    assert not club_of_two.ask_again()
    assert written.read_bytes() == known


@pytest.mark.parametrize(
    ("file", "again"),
    [
        (RIG, {RIG}),
        (SPOT, {SPOT, RIG, "rigs/again.yaml"}),
        (SHELF, {SHELF, RIG, OTHER, "rigs/again.yaml"}),
    ],
)
def test_only_what_rests_on_a_changed_file_is(
    club_of_two: Memory, club: Path, file: str, again: set[str]
) -> None:
    club_of_two.fill()
    with (club / file).open("a", encoding="utf-8") as stream:
        stream.write("# more\n")
    assert rewritten(club_of_two) == again


def test_another_day_is_another_question(club_of_two: Memory) -> None:
    club_of_two.fill()
    club_of_two.call[club_of_two.call.index(DAY[1])] = "2026-05-03"
    assert rewritten(club_of_two) == ALL


def test_a_policy_is_another_question_and_the_form_is_not(club_of_two: Memory, club: Path) -> None:
    club_of_two.fill()
    club_of_two.call[-1] = "html"
    assert rewritten(club_of_two) == set()
    (club / "ours.txt").write_text(
        "riglint: policy/1\ntitle: Ours\nvalues: {tail/webbing.least_tail: 9 m}\n", "utf-8"
    )
    club_of_two.call += ["--policy", "ours.txt"]
    assert rewritten(club_of_two) == ALL
    (club / "ours.txt").write_text(
        "riglint: policy/1\ntitle: Ours\nvalues: {tail/webbing.least_tail: 8 m}\n", "utf-8"
    )
    assert rewritten(club_of_two) == ALL


def test_a_file_with_something_wrong_is_examined_each_time(club_of_two: Memory, club: Path) -> None:
    (club / "spots/willow-bank.yaml").unlink()
    club_of_two.ask()
    club_of_two.ask()
    assert RIG not in {path_in(one) for one in club_of_two.of_files()}
    shutil.copy(CHECKOUT / "examples/ordinary" / SPOT, club / SPOT)
    assert rewritten(club_of_two) == {RIG, "rigs/again.yaml", SPOT}


def test_in_git_as_well_whatever_they_are_taken_out_to(club_of_two: Memory, club: Path) -> None:
    git(club, "init", "-q")
    git(club, "add", "-A")
    club_of_two.call[1:2] = ["--revision", "staged", "."]
    club_of_two.fill()
    assert {path_in(one) for one in club_of_two.of_files()} == ALL
    with (club / SPOT).open("a", encoding="utf-8") as stream:
        stream.write("# more\n")
    assert rewritten(club_of_two) == set()
    git(club, "add", "-A")
    assert rewritten(club_of_two) == {SPOT, RIG, "rigs/again.yaml"}
    club_of_two.call.remove("--revision")
    club_of_two.call.remove("staged")
    assert rewritten(club_of_two) == ALL


def test_a_damaged_record_of_a_file(club_of_two: Memory) -> None:
    club_of_two.fill()
    for record in club_of_two.of_files():
        raw = record.read_bytes()
        record.write_bytes(raw.replace(b'"WARNING"', b'"CAUTION"') if b'"WARNING"' in raw else raw[:-1])
    assert rewritten(club_of_two) == ALL


def test_what_rests_on_remembered_files_rests_on_all_that_they_rest_on(club_of_two: Memory) -> None:
    """The whole answer is kept with the same looks, whether files were examined or remembered."""
    club_of_two.fill()

    def looks() -> set[tuple[bytes, bytes]]:
        (record,) = club_of_two.records()
        answer = unpacked(record.name.encode(), record.read_bytes())
        assert answer is not None
        return {one for one in answer.looks if one[0] not in {b"code", b"modules"}}

    remembered = looks()
    for record in (*club_of_two.records(), *club_of_two.of_files()):
        record.unlink()
    club_of_two.ask()
    assert looks() <= remembered


@pytest.fixture(scope="module")
def everything() -> list[Examined]:
    """What each file of the example libraries says."""
    found: list[Examined] = []
    patch = pytest.MonkeyPatch()
    take = Auditor.take

    def taken(self: Auditor, library: Library, one: Examined) -> None:
        found.append(one)
        take(self, library, one)

    patch.setattr(Auditor, "take", taken)
    book: Rulebook = load_rulebook()
    audit(
        [CHECKOUT / "examples" / name for name in ("rigs", "open", "faulty")], book, ON, keep=summary_of_rig
    )
    patch.undo()
    return found


def test_every_file_comes_back_as_it_was(everything: list[Examined]) -> None:
    files = RememberedFiles((Summary,))
    assert len([one for one in everything if one.rig is not None]) > 10
    for one in everything:
        head, body, planned, _ = files._pieces(one, {})
        again = files._taken(files.records.value(head), compress(body), planned, one.file)
        assert _told(again) == _told(one)
        assert (again.rig is None) == (one.rig is None)
        if one.rig is not None and again.rig is not None:
            told = HeldResult(*files.records.value(body))
            assert again.rig.later is not None
            assert again.rig.later.short.gists == gists_of(told.findings)
            facts = {**again.rig.facts, plan: files.records.value(planned)}
            rig = replace(at_once(again.rig, told), facts=facts, loads=one.rig.loads)
            assert sorted(rig.findings, key=repr) == sorted(one.rig.findings, key=repr)
            assert replace(rig, findings=()) == replace(one.rig, findings=())
            json.dumps([finding.to_dict() for finding in rig.findings])


def test_what_has_no_record_is_not_kept() -> None:
    with pytest.raises(NoRecordError):
        Records().text((Summary("ground", "", None, None),))
    with pytest.raises(NoRecordError):
        canonical({"a": object()})


def test_no_class_comes_back_that_is_not_known() -> None:
    for text in (b'{"of":"Path","holds":["/a"]}', b'{"word":"system","is":"a"}', b'{"other":1}', b"nonsense"):
        with pytest.raises((KeyError, ValueError, TypeError)):
            Records().value(text)
