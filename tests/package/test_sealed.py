"""The rulebook is sealed: an installation in which a rule is gone, moved, changed or added judges nothing."""

import json
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from riglint.rulebook import MANIFEST, hashes, load_rulebook, manifest, rule_files, shipped
from riglint.testing import BASELINES
from tests.package.checkout import CHECKOUT, copy_sources, started

DAY = ("--on", "2026-05-02")
RULE = "tail/webbing.py"


@pytest.fixture
def installed(tmp_path: Path) -> Path:
    """Return a folder as a wheel is installed: the rules inside the package, no project file, no git."""
    copy_sources(tmp_path / "site", ("riglint",))
    copy_sources(tmp_path / "site/riglint", ("rules", "schemas"))
    return tmp_path / "site"


def called(site: Path, *arguments: str) -> tuple[int, str]:
    rig = site.parent / "low.yaml"
    rig.write_text((BASELINES / "low.yaml").read_text("utf-8"), encoding="utf-8")
    call = [sys.executable, "-m", "riglint", *(arguments or ("audit", str(rig), *DAY))]
    found = started(call, site.parent, PYTHONPATH=str(site))
    return found.returncode, found.stdout


def test_the_manifest_is_that_of_the_rules() -> None:
    folder = shipped("rules")
    found = (folder / MANIFEST).read_text("utf-8")
    assert found == manifest(hashes(rule_files(folder))), "run: python -m riglint.reports.rules.pages"
    assert len(found.splitlines()) == len(load_rulebook().rules)
    assert load_rulebook().differs == ""


def test_an_installation_as_it_came_judges(installed: Path) -> None:
    status, said = called(installed)
    assert status in {0, 1}
    assert f"Judged by rulebook {load_rulebook().seal}." in said


def gone_family(rules: Path) -> None:
    for file in (rules / "ratio").iterdir():
        file.unlink()


def one_left(rules: Path) -> None:
    for file in rules.glob("*/*.py"):
        if file != rules / RULE:
            file.unlink()


def moved(rules: Path) -> None:
    (rules / RULE).rename(rules / "tail/strap.py")


def changed(rules: Path) -> None:
    file = rules / RULE
    text = file.read_text("utf-8")
    assert "0.5 m" in text
    file.write_text(text.replace("0.5 m", "0.4 m"), encoding="utf-8")


def surplus(rules: Path) -> None:
    (rules / "tail/quiet.py").write_text((rules / RULE).read_text("utf-8"), encoding="utf-8")


def no_manifest(rules: Path) -> None:
    (rules / MANIFEST).unlink()


def empty_manifest(rules: Path) -> None:
    (rules / MANIFEST).write_text("", encoding="utf-8")


CHANGES = [
    (gone_family, "rules missing: ratio/haul_overshoot, ratio/peak, ratio/rated, ratio/standing"),
    (one_left, "rules missing: anchor/bolt_figures,"),
    (moved, "rules missing: tail/webbing; rules not in the manifest: tail/strap"),
    (changed, "rules changed: tail/webbing"),
    (surplus, "rules not in the manifest: tail/quiet"),
    (no_manifest, "the manifest of the rules (manifest.txt) is missing or cannot be read"),
    (empty_manifest, "rules not in the manifest: anchor/bolt_figures,"),
]


@pytest.mark.parametrize(("change", "says"), CHANGES, ids=lambda one: getattr(one, "__name__", ""))
def test_an_installation_that_differs_judges_nothing(
    installed: Path, change: Callable[[Path], None], says: str
) -> None:
    change(installed / "riglint/rules")
    status, said = called(installed)
    assert status == 3
    assert said.startswith(f"The installation is damaged ({says}")
    assert said.endswith("Reinstall riglint.\n")
    assert called(installed, "rulebook")[0] == 3
    assert called(installed, "limits", str(installed.parent / "low.yaml"))[0] == 3


def test_a_folder_of_sources_without_git_is_no_checkout(tmp_path: Path) -> None:
    copy_sources(tmp_path / "site")
    changed(tmp_path / "site/rules")
    status, said = called(tmp_path / "site")
    assert (status, said[:27]) == (3, "The installation is damaged")


@pytest.mark.parametrize(("change", "says"), CHANGES, ids=lambda one: getattr(one, "__name__", ""))
def test_a_checkout_under_development_works_and_says_so(
    tmp_path: Path, change: Callable[[Path], None], says: str
) -> None:
    site = tmp_path / "site"
    copy_sources(site)
    (site / ".git").mkdir()
    change(site / "rules")
    status, said = called(site, "audit", "low.yaml", *DAY, "--format", "json", "--output", "r.json")
    assert status in {0, 1}
    assert said.startswith(f"Rulebook under development, {says}")
    report = json.loads((tmp_path / "r.json").read_text("utf-8"))
    assert report["rulebook"]["differs"].startswith(says)
    _, text = called(site, "audit", "low.yaml", *DAY)
    assert " ".join(text.split()).count(f"Rulebook under development, {says}") == 2  # aside, and at the top


def test_what_was_hashed_is_what_runs(installed: Path) -> None:
    """A compiled copy of other bytes, which Python would take without a look at the source, is not taken."""
    import py_compile  # noqa: PLC0415

    rule = installed / "riglint/rules" / RULE
    other = installed.parent / "other.py"
    other.write_text("raise SystemExit('the compiled copy ran')\n", encoding="utf-8")
    cached = rule.parent / "__pycache__" / f"webbing.{sys.implementation.cache_tag}.pyc"
    cached.parent.mkdir(exist_ok=True)
    unchecked = py_compile.PycInvalidationMode.UNCHECKED_HASH
    py_compile.compile(str(other), cfile=str(cached), dfile=str(rule), invalidation_mode=unchecked)
    status, said = called(installed)
    assert status in {0, 1}
    assert "the compiled copy ran" not in said


def test_the_seal_is_that_of_all_rules_house_rules_too(installed: Path) -> None:
    house = CHECKOUT / "examples/house_rules/meadow_club"
    rig = str(BASELINES / "low.yaml")
    seals = []
    for more in ((), ("--house-rules", str(house))):
        _, said = called(installed, "audit", rig, *DAY, "--format", "json", *more)
        seals.append(json.loads(said)["rulebook"]["seal"])
    assert seals[0] == load_rulebook().seal
    assert len(set(seals)) == 2
    assert all(len(seal) == 12 and int(seal, 16) >= 0 for seal in seals)


@pytest.mark.parametrize(
    "call",
    [
        ("audit", "low.yaml"),
        *(("audit", "low.yaml", "--format", form) for form in ("json", "html", "markdown", "sarif", "junit")),
        ("sheet", "low.yaml"),
        ("sheet", "low.yaml", "--format", "json"),
        ("card", "low.yaml"),
        ("card", "low.yaml", "--format", "json"),
        ("compare", "low.yaml", "low.yaml"),
        *(("compare", "low.yaml", "low.yaml", "--format", form) for form in ("json", "markdown")),
        ("rulebook",),
        ("rulebook", "--format", "json"),
    ],
    ids=" ".join,
)
def test_each_report_carries_it(installed: Path, call: tuple[str, ...]) -> None:
    day = DAY if call[0] != "rulebook" else ()
    _, said = called(installed, *call, *day)
    assert load_rulebook().seal in said.replace("\n", "")


def test_line_ends_of_this_system_change_nothing() -> None:
    assert hashes({"a/b": b"x\r\ny\r\n"}) == hashes({"a/b": b"x\ny\n"})
    assert hashes({"a/b": b"x\ny \n"}) != hashes({"a/b": b"x\ny\n"})
