"""`riglint ask`: whole rigs from answers, units refused as typed, the unknown stays open, nothing overwritten."""

import json
import os
import pty
import re
import shutil
import subprocess
import time
from pathlib import Path
from typing import NamedTuple

import pytest

from riglint.asking import QUESTIONS, rig_text
from riglint.cli.call.options import SIGNALS
from riglint.read.yaml_text import read_yaml
from tests.cli.calling import CHECKOUT, DAY, command, environment, run

ANSWERS = Path(__file__).parent / "answers"
CLUB = CHECKOUT / "examples/shelf/club.yaml"
PARK = CHECKOUT / "examples/ordinary/shelf/park.yaml"
ASKED = re.compile(r"^(\d+)(?: of (\d+))?(?:, more on it)?  ", re.MULTILINE)


class Rig(NamedTuple):
    """A recorded set of answers: its gear list, how many questions and lines it may take, what is found."""

    name: str
    gear: Path
    most_questions: int
    most_lines: int
    faults: tuple[str, ...]
    worst: str


RIGS = (
    Rig("park-line", PARK, 12, 27, (), "NOTICE"),
    Rig("long-line", CLUB, 20, 35, (), "NOTICE"),
    Rig("highline", CLUB, 20, 60, (), "NOTICE"),
)


def answers(library: Path, name: str, **other: str) -> Path:
    """Return the recorded answers, some of them given otherwise."""
    lines = (ANSWERS / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if line.partition(":")[0] not in other]
    file = library / "answers.txt"
    file.write_text(
        "\n".join([*kept, *(f"{key}: {value}" for key, value in other.items())]), encoding="utf-8"
    )
    return file


def asked(library: Path, name: str, gear: Path | None, **other: str) -> tuple[int, str, str]:
    """Replay answers; return the status, what was printed and what was complained of."""
    listed = []
    if gear is not None:
        shutil.copy(gear, library / "gear.yaml")
        listed = ["--gear-list", "gear.yaml"]
    return run(library, "ask", "new.yaml", *listed, "--answers", answers(library, name, **other), *DAY)


def findings(library: Path) -> list[dict[str, str]]:
    _, out, _ = run(library, "audit", "new.yaml", *DAY, "--format", "json")
    return [
        one for file in json.loads(out)["files"] if file["path"] == "new.yaml" for one in file["findings"]
    ]


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: rig.name)
def test_a_rig_in_few_questions_and_lines(library: Path, rig: Rig) -> None:
    status, out, err = asked(library, rig.name, rig.gear)
    assert (status, err) == (0, "")
    assert len(ASKED.findall(out)) <= rig.most_questions
    text = (library / "new.yaml").read_text(encoding="utf-8")
    assert text.count("\n") <= rig.most_lines
    assert max(map(len, text.splitlines())) <= 100
    found = findings(library)
    assert [one["rule"] for one in found if one["kind"] == "open"] == []
    assert tuple(one["rule"] for one in found if one["kind"] == "fail") == rig.faults


def each_answer() -> list[tuple[Rig, str]]:
    """Return each rig with each question that its answers know."""
    found = []
    for rig in (RIGS[0], RIGS[2]):
        lines = (ANSWERS / f"{rig.name}.txt").read_text(encoding="utf-8").splitlines()
        names = [line.partition(":")[0] for line in lines]
        found += [(rig, name) for name in names if name not in {"line", "ends"}]
    return found


@pytest.mark.parametrize(("rig", "question"), each_answer(), ids=lambda one: getattr(one, "name", one))
def test_what_nobody_knows_never_makes_a_rig_quieter(library: Path, rig: Rig, question: str) -> None:
    # Without edges nobody asks how deep it is beyond them.
    more = {"ground": "rock, rock, -45 m, 0 m"} if question == "edges" else {}
    status, _, err = asked(library, rig.name, rig.gear, **{question: "?"} | more)
    assert (status, err) in {(0, ""), (1, "")}
    found = findings(library)
    assert max(SIGNALS.index(one["signal"]) for one in found) >= SIGNALS.index(rig.worst)
    assert {rule for rule in rig.faults if rule not in ruled(found)} == set()


def ruled(found: list[dict[str, str]]) -> set[str]:
    """Return the rules that found something or wait for a value."""
    return {rule for one in found for rule in (one["rule"], *one["rules"])}


def test_a_layout_that_nobody_confirmed_stays_open(library: Path) -> None:
    status, _, _ = asked(library, "highline", CLUB, layout="no")
    assert status == 1
    text = (library / "new.yaml").read_text(encoding="utf-8")
    assert not any(key in text for key in ("padded", "figure_eight", "included_angle", "lowering"))


@pytest.mark.parametrize(("name", "most"), [("set-without-list", 12), ("tackle-without-list", 13)])
def test_without_a_gear_list_full_answers_make_a_rig_in_order(library: Path, name: str, most: int) -> None:
    status, out, err = asked(library, name, None)
    assert (status, err) == (0, "")
    assert len(ASKED.findall(out)) <= most
    assert [one["message"] for one in findings(library) if one["kind"] in {"open", "fail"}] == []


@pytest.mark.parametrize("question", ["labels", "data_sheet", "sizes", "around"])
@pytest.mark.parametrize("name", ["set-without-list", "tackle-without-list"])
def test_what_nobody_reads_off_the_gear_stays_open(library: Path, name: str, question: str) -> None:
    asked(library, name, None, **{question: "?"})
    found = findings(library)
    assert [one for one in found if one["kind"] in {"open", "fail"}] != []
    text = (library / "new.yaml").read_text(encoding="utf-8")
    kept = {"labels": "mbs:", "data_sheet": "stretch:", "sizes": "hitch:", "around": "tie_back:"}
    assert kept[question] not in text


def test_a_blank_mass_or_stretch_is_asked_for_and_leaves_the_class(library: Path) -> None:
    status, out, _ = asked(library, "set-without-list", None, data_sheet="?")
    assert status == 1
    assert "consequence fall: the public can come near" in out
    assert "one point alone" not in out


@pytest.mark.parametrize("name", ["park-line", "long-line", "highline"])
def test_the_count_of_questions_never_jumps(library: Path, name: str) -> None:
    rig = next(one for one in RIGS if one.name == name)
    so = "wires, obstacles, permission, watcher, checker"
    _, out, _ = asked(
        library, name, rig.gear, so=so, wires="12 m, 20 kV", obstacles="bench, 7 m, 1.2 m, 0.5 m"
    )
    places = ASKED.findall(out)
    assert len({of for _, of in places if of}) == 1
    assert max(int(number) for number, _ in places) == int(places[-1][1])
    assert [int(number) for number, _ in places] == sorted(int(number) for number, _ in places)
    assert "more on it" in out


@pytest.mark.parametrize(("end", "other"), [("?, bolts", "near"), ("bolts, ?", "far")])
def test_an_end_that_nobody_knows_is_no_tree(library: Path, end: str, other: str) -> None:
    bolts = "25 kN, 15 kN, 0.3 m, 0.4 m, 10 deg, granite, EN 959"
    status, out, err = asked(library, "highline", CLUB, ends=end, bolts=bolts, bolt_dates="2023-05, 2025-06")
    assert (status, err) == (1, "")
    text = (library / "new.yaml").read_text(encoding="utf-8")
    assert "tree" not in text
    assert f"at: {other}" not in text
    assert "nothing holds that end" in " ".join(out.split())


# Span, depth in the middle and beyond the edges, of gorges in a plateau; the bolts stand behind the edges.
@pytest.mark.parametrize(
    ("span", "beyond", "depth"), [(42, -12, -30), (52, -15, -60), (80, -30, -100), (30, -20, -80)]
)
def test_a_gorge_between_two_edges_is_no_slope_below_the_bolts(
    library: Path, span: int, beyond: int, depth: int
) -> None:
    asked(
        library,
        "highline",
        CLUB,
        lengths=f"{span} m, 1.2 m, 1.2 m, 5 m, 5 m",
        ground=f"rock, rock, {beyond} m, {depth} m, {beyond} m, 0 m",
        webbing=f"{span + 3} m, 1.5 m",
    )
    assert [one["message"] for one in findings(library) if one["rule"].startswith("ground/")] == []


def test_who_comes_near_the_bolts_falls_on_the_plateau(library: Path) -> None:
    asked(library, "highline", CLUB, lengths="52 m, 1.2 m, 1.2 m, 1 m, 1 m")
    assert "ground/fall_room" in {one["rule"] for one in findings(library) if one["kind"] == "fail"}


def test_a_tie_back_is_proposed_that_reaches_across_the_blocks(library: Path) -> None:
    _, out, _ = asked(library, "long-line", CLUB, tie_back="")
    assert "tie-back (usual TB-8)" in out
    assert "haul/tie_back_length" not in ruled(findings(library))
    (library / "new.yaml").unlink()
    _, out, _ = asked(library, "long-line", CLUB, haul_lengths="69 m, 0.7 m, 18 m", tie_back="?")
    assert "none on the list is 70 m long" in out


@pytest.mark.parametrize(
    ("question", "answer", "says"),
    [
        ("lengths", "15, 1.3 m, 1.3 m, 2 m, 2 m", "such as"),
        ("lengths", "15 KN, 1.3 m, 1.3 m, 2 m, 2 m", "KN"),
        ("lengths", "15 m", "1 of 5 values"),
        ("lengths", "-15 m, 1.3 m, 1.3 m, 2 m, 2 m", "-15 m"),
        ("trees", "140 cm, oak, rough, sound, none", "1 groups were read"),
        ("trees", "1 m, oak, rouhg, sound, none; 1 m, oak, rough, sound, none", "Did you mean rough?"),
        ("so", "permision", "Did you mean permission?"),
        ("people", "75, beginner, walk", "75"),
        ("pieces", "PP-1, PS-1 choke, PH-1, PE-15, P-51, RT-1, PH-2, PS-2 basket, PP-2", "P-51"),
        ("pieces", "PP-1, PS-1, PH-1, PE-15, RT-1, RT-1, PH-2, PS-2 basket, PP-2", "is a ratchet"),
        ("plan", "3 kN, two, , 10 km/h", "whole number"),
        ("days", "03.05.2026, 1", "03.05.2026"),
    ],
)
def test_a_wrong_answer_says_what_to_type(library: Path, question: str, answer: str, says: str) -> None:
    status, _, err = asked(library, "park-line", PARK, **{question: answer})
    assert status == 2
    assert says in err
    assert question in err
    assert not (library / "new.yaml").exists()


def test_over_water_its_depth_is_asked_for(library: Path) -> None:
    _, out, err = asked(library, "park-line", PARK, ground="water, dry, -1 m, 0 m", water="2.5 m")
    assert err == ""
    assert "How deep is the water" in out
    text = (library / "new.yaml").read_text(encoding="utf-8")
    assert "water_depth: 2.5 m" in text
    assert "standby: false" in text


def test_a_tackle_is_proposed_for_a_tackle(library: Path) -> None:
    _, out, _ = asked(library, "park-line", PARK, line="tackle", pieces="")
    assert "webbing tackle (usual TK-1)" in out
    assert "ratchet (usual" not in out


def test_nothing_is_written_over(library: Path) -> None:
    (library / "new.yaml").write_text("mine", encoding="utf-8")
    status, out, err = asked(library, "park-line", PARK)
    assert (status, out) == (2, "")
    assert "new.yaml is there already" in err
    assert (library / "new.yaml").read_text(encoding="utf-8") == "mine"


def test_answers_that_end_early_write_nothing(library: Path) -> None:
    call = command("ask", "new.yaml", *DAY)
    done = subprocess.run(
        call, cwd=library, env=environment(), input=b"ratchet\n", capture_output=True, check=False
    )
    assert done.returncode == 2
    assert b"Nothing was written" in done.stderr
    assert not (library / "new.yaml").exists()


def test_a_gear_list_outside_the_library_is_told_at_once(library: Path) -> None:
    shutil.copy(PARK, library.parent / "gear.yaml")
    status, out, err = run(library, "ask", "new.yaml", "--gear-list", "../gear.yaml", *DAY)
    assert (status, out) == (2, "")
    assert "outside" in err


def test_an_unknown_name_among_the_answers(library: Path) -> None:
    status, _, err = asked(library, "park-line", PARK, lenghts="15 m, 1 m, 1 m")
    assert status == 2
    assert "'lenghts' is no question" in err


def test_a_name_of_any_letters_comes_back_as_it_was_typed() -> None:
    for name in ("O'Hara: oak", "- dash", "no", "#1", 'a "b" c', "Birke, groß", "{x}", "null", "1 kN"):
        text = rig_text({"riglint": "rig/1", "title": name})
        document, problems = read_yaml(text.encode(), "new.yaml")
        assert (problems, document.data["title"] if document else None) == ([], name)


def test_on_a_real_terminal_a_wrong_answer_is_typed_again(library: Path) -> None:
    shutil.copy(PARK, library / "gear.yaml")
    lines = (ANSWERS / "park-line.txt").read_text(encoding="utf-8").splitlines()
    recorded = dict(line.split(": ", 1) for line in lines)
    leader, follower = pty.openpty()
    call = command("ask", "new.yaml", "--gear-list", "gear.yaml", *DAY)
    process = subprocess.Popen(
        call, cwd=library, env=environment(TERM="dumb"), stdin=follower, stdout=follower, stderr=follower
    )
    os.close(follower)
    terminal = Terminal(leader)
    terminal.answer("Which kind of line?", "rachet")
    terminal.answer("Did you mean ratchet?", "ratchet")
    terminal.answer("Which pieces", "back")
    terminal.answer("Which kind of line?", "ratchet")
    for question in QUESTIONS[1:]:
        if question.name in recorded:
            terminal.answer(question.ask[:20], recorded[question.name])
    terminal.until("1 file seen")
    assert process.wait(timeout=60) == 0
    os.close(leader)
    assert "gear: RT-1, tie_back" in (library / "new.yaml").read_text(encoding="utf-8")


class Terminal:
    """The other side of a terminal."""

    def __init__(self, leader: int) -> None:
        self.leader, self.read = leader, ""

    def until(self, words: str, seconds: float = 60.0) -> None:
        """Read until these words and the prompt after them have come, and take them off."""
        end = time.monotonic() + seconds
        while words not in self.read:
            assert time.monotonic() < end, f"{words!r} did not come: {self.read!r}"
            self.read += os.read(self.leader, 4096).decode()
        self.read = self.read.partition(words)[2]

    def answer(self, question: str, words: str) -> None:
        """Wait for a question and its prompt, then type an answer."""
        self.until(question)
        self.until("] > ")
        os.write(self.leader, f"{words}\n".encode())
