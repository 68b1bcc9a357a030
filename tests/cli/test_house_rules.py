"""House rules: named in the call, judged like our own, and never silent when they do not load."""

import json
import textwrap
from pathlib import Path

import pytest

from riglint.testing import BASELINES, failed_examples
from tests.cli.calling import CHECKOUT, DAY, run, write

MEADOW = CHECKOUT / "examples/house_rules/meadow_club"
CAP = "meadow_club/plan/tension_cap"
RULE = """
from riglint.rulekit import Case, Fault, Signal, rule, the_rig

@rule(title="Always", each=the_rig, signal=Signal.NOTICE, why="w", formula="f", examples=())
def always(case: Case, _: object):
    {body}
"""
SAYS = 'yield Fault(case.at("title"), "Said by a house rule.", "Do 1 thing.")'


def rig(library: Path, tension: str = "9 kN") -> Path:
    text = (BASELINES / "long_haul.yaml").read_text("utf-8")
    assert text.count("standing_tension: 6 kN") == 1
    return write(library / "rig.yaml", text.replace("standing_tension: 6 kN", f"standing_tension: {tension}"))


def rule_set(library: Path, **bodies: str) -> Path:
    for name, body in bodies.items():
        write(library / f"own_rules/site/{name}.py", RULE.format(body=body))
    return library / "own_rules"


def findings(library: Path, *call: str | Path) -> tuple[int, list[dict[str, object]]]:
    status, out, _ = run(library, "audit", "rig.yaml", *DAY, "--format", "json", *call)
    report = json.loads(out)
    return status, [one for file in report["files"] for one in file["findings"]]


def test_the_worked_example_answers_its_own_examples() -> None:
    assert failed_examples(MEADOW) == []


def test_an_example_that_no_longer_holds_is_told(library: Path) -> None:
    text = (MEADOW / "haul/hands.py").read_text("utf-8")
    write(library / "own_rules/haul/hands.py", text.replace("if haulers > most", "if haulers > most + 1"))
    (failed,) = failed_examples(library / "own_rules")
    assert failed.startswith("haul/hands: expected fail, got nothing")


def test_a_folder_named_in_the_call_judges_beside_our_own_rules(library: Path) -> None:
    rig(library)
    assert CAP not in {one["rule"] for one in findings(library)[1]}
    _, found = findings(library, "--house-rules", MEADOW)
    (told,) = (one for one in found if one["rule"] == CAP)
    assert (told["signal"], told["kind"], told["value"], told["limit"]) == ("WARNING", "fail", 9, 8)
    assert {one["rule"] for one in found} > {CAP}


def test_a_folder_beside_the_rig_is_never_run_unasked(library: Path) -> None:
    rig(library)
    rule_set(library, told=SAYS)
    assert "Said by a house rule." not in run(library, "audit", ".", *DAY)[1]


def test_a_policy_may_move_the_limit_of_a_house_rule(library: Path) -> None:
    rig(library, "7.5 kN")
    write(library / "policy.yaml", f"riglint: policy/1\ntitle: Club\nvalues: {{{CAP}.most_standing: 7 kN}}\n")
    _, found = findings(library, "--house-rules", MEADOW, "--policy", "policy.yaml")
    assert [one["limit"] for one in found if one["rule"] == CAP] == [7]


def test_a_set_that_does_not_load_is_a_danger_and_hides_nothing(library: Path) -> None:
    rig(library)
    alone = findings(library)[1]
    folder = rule_set(library, told=SAYS)
    write(folder / "site/torn.py", "def (")
    status, found = findings(library, "--house-rules", folder)
    (told,) = (one for one in found if one["rule"] == "own_rules")
    assert status == 3
    assert (told["signal"], told["crashed"]) == ("DANGER", True)
    assert "own_rules did not load completely" in str(told["message"])
    assert "site/torn.py does not load: SyntaxError" in str(told["message"])
    assert [one for one in found if one is not told] == alone


@pytest.mark.parametrize(
    "body", ["raise RuntimeError('no')", "import sys; sys.exit(0)", "return 7", "yield 7"]
)
def test_a_house_rule_that_crashes_is_a_danger_and_hides_nothing(library: Path, body: str) -> None:
    rig(library)
    alone = findings(library)[1]
    status, found = findings(library, "--house-rules", rule_set(library, told=SAYS, worse=body))
    crashed = [one for one in found if one["crashed"]]
    assert status == 3
    assert [(one["rule"], one["signal"]) for one in crashed] == [("own_rules/site/worse", "DANGER")]
    others = [one for one in found if not str(one["rule"]).startswith("own_rules")]
    assert others == alone
    assert "Said by a house rule." in {one["message"] for one in found}


def test_a_file_that_would_not_run_keeps_the_set_from_loading(library: Path) -> None:
    rig(library)
    folder = rule_set(library, told=SAYS)
    write(folder / "stray.py", RULE.format(body=SAYS))
    status, found = findings(library, "--house-rules", folder)
    assert status == 3
    assert any("holds stray.py, which would not run" in str(one["message"]) for one in found)


def test_a_file_that_ends_the_program_does_not_end_the_audit(library: Path) -> None:
    rig(library)
    write(library / "own_rules/site/leaves.py", "raise SystemExit(0)")
    status, found = findings(library, "--house-rules", "own_rules")
    assert status == 3
    assert any("does not load: SystemExit" in str(one["message"]) for one in found)


def test_a_broken_set_gives_3_even_where_no_rig_is_audited(library: Path) -> None:
    write(library / "own_rules/site/torn.py", "def (")
    write(library / "shelf.yaml", "riglint: shelf/1\nitems: {}\n")
    assert run(library, "audit", ".", *DAY, "--house-rules", "own_rules")[0] == 3


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("nowhere/at_all", "There is no folder 'nowhere/at_all' to read house rules from."),
        (
            "medow_club",
            "'medow_club' is neither a folder nor an installed rule set. Nearest to it: meadow_club.",
        ),
        ("Own-Rules", "'Own-Rules' cannot begin the id of a rule"),
    ],
)
def test_a_set_that_is_not_there_is_a_wrong_call(library: Path, offered: Path, named: str, said: str) -> None:
    rig(library)
    (library / "Own-Rules").mkdir()
    assert offered.is_dir()
    status, out, err = run(library, "audit", "rig.yaml", *DAY, "--house-rules", named)
    assert (status, out) == (2, "")
    assert said in err


# Installed sets


@pytest.fixture
def offered(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A package that offers the worked example, as an installer would lay it out."""
    site = tmp_path / "site"
    package = site / "meadow_rules"
    for file in MEADOW.rglob("*.py"):
        write(package / file.relative_to(MEADOW), file.read_text("utf-8"))
    write(package / "__init__.py", "raise RuntimeError('a list must not run this')\n")
    info = site / "meadow_rules-1.2.dist-info"
    write(info / "METADATA", "Metadata-Version: 2.1\nName: meadow-rules\nVersion: 1.2\n")
    points = """
        [riglint.house_rules]
        meadow_club = meadow_rules
        gone = not_there_at_all
    """
    write(info / "entry_points.txt", textwrap.dedent(points))
    monkeypatch.setenv("PYTHONPATH", str(site))
    return site


@pytest.mark.usefixtures("offered")
def test_an_installed_set_judges_under_the_name_of_its_entry_point(library: Path) -> None:
    rig(library)
    assert CAP in {one["rule"] for one in findings(library, "--house-rules", "meadow_club")[1]}
    status, out, _ = run(library, "rulebook", CAP, "--house-rules", "meadow_club")
    assert status == 0
    assert f"{CAP}: More standing tension" in " ".join(out.split())


def test_installed_sets_are_listed_without_running_them(library: Path, offered: Path) -> None:
    status, out, err = run(library, "rulebook", "--installed", "--format", "json")
    assert (status, err) == (0, "")
    listed = {one["name"]: one for one in json.loads(out)["installed"]}
    assert listed["meadow_club"] == {
        "name": "meadow_club",
        "package": "meadow-rules",
        "version": "1.2",
        "folder": str(offered / "meadow_rules"),
    }
    assert listed["gone"]["folder"] is None
    text = run(library, "rulebook", "--installed")[1]
    assert "meadow_club" in text
    assert "None of them has run." in text
    assert (
        "| `meadow_club` | meadow-rules 1.2 |"
        in run(library, "rulebook", "--installed", "--format", "markdown")[1]
    )


@pytest.mark.usefixtures("offered")
def test_an_installed_set_whose_package_is_gone_is_a_wrong_call(library: Path) -> None:
    rig(library)
    status, _, err = run(library, "audit", "rig.yaml", *DAY, "--house-rules", "gone")
    assert status == 2
    assert "The installed rule set 'gone' (meadow-rules) has no folder of rules." in err


def test_two_sets_of_one_name_are_refused(library: Path) -> None:
    rig(library)
    write(library / "a/club/site/one.py", RULE.format(body=SAYS))
    write(library / "b/club/site/one.py", RULE.format(body=SAYS))
    call = ("audit", "rig.yaml", *DAY, "--house-rules", "a/club", "--house-rules", "b/club")
    status, _, err = run(library, *call)
    assert (status, "Two rule sets are called 'club'" in err) == (2, True)
