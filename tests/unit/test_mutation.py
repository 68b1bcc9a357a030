"""The mutation check notices what it should, and tells what nobody notices."""

from pathlib import Path

import pytest
import yaml

from tests.mutation.__main__ import LISTED
from tests.mutation.killing import CHECKOUT, REACHING, Workshop, reaching_tests, rule_notices
from tests.mutation.mutants import Mutant, mutants_of

SOURCE = '''
"""Words with 7 in them."""
LEAST = Limit(name="3 m", text="0.5 m", because="2 is less.")

def judge(length: int = 3) -> bool:
    """More 8 words."""
    if length < 4 and name is not None and key in known:
        return f"{length:.2f} m" != 1.5
'''


def changes(source: str) -> set[tuple[str, str]]:
    return {(one.old, one.new) for one in mutants_of(source, "x.py")}


def test_comparisons_and_constants_are_changed_and_words_are_not() -> None:
    assert changes(SOURCE) == {
        ("0.5", "0.55"),
        ("3", "4"),
        ("<", "<="),
        ("<", ">"),
        ("4", "5"),
        ("is not", "is"),
        ("in", "not in"),
        ("!=", "=="),
        ("1.5", "1.6500000000000001"),
    }


def test_a_mutant_is_named_by_the_function_around_it() -> None:
    names = {one.name for one in mutants_of(SOURCE, "x.py")}
    assert {"x.py module: 0.5 -> 0.55", "x.py judge: < -> <="} <= names


def test_a_mutant_changes_one_place_behind_odd_letters() -> None:
    (one, other) = mutants_of('said = "größer → ü"; wide = a < b\n', "x.py")
    assert one.applied('said = "größer → ü"; wide = a < b\n') == 'said = "größer → ü"; wide = a <= b\n'
    assert other.new == ">"


@pytest.fixture
def mutants() -> list[Mutant]:
    file = "rules/tail/webbing.py"
    return mutants_of((CHECKOUT / file).read_text(encoding="utf-8"), file)


def test_a_limit_moved_and_a_comparison_turned_round_are_noticed(mutants: list[Mutant]) -> None:
    by_name = {(one.old, one.new): one for one in mutants}
    assert rule_notices(by_name["0.5", "0.55"])
    assert rule_notices(by_name["<", ">"])


def test_a_change_that_means_nothing_is_not_noticed(mutants: list[Mutant]) -> None:
    one = mutants[0]
    nothing = Mutant(one.file, one.line, one.column, one.end, one.start, one.old, f"{one.old}0", "constant")
    assert not rule_notices(nothing)


def test_module_reaches_its_own_doctest_and_the_tests_above_it() -> None:
    reached = reaching_tests("roots")
    assert reached[0] == "riglint/mechanics/roots.py"
    assert "tests/published/test_cables.py" in reached
    assert "tests/published/test_capstan.py" not in reached


def test_a_broken_module_is_noticed_and_a_whole_one_is_not(tmp_path: Path) -> None:
    workshop, file = Workshop(tmp_path), "riglint/mechanics/rope/friction.py"
    source = (CHECKOUT / file).read_text(encoding="utf-8")
    tests = ["riglint/mechanics/rope/friction.py", "tests/published/test_capstan.py"]
    assert workshop.passes(tests)
    two_pi = next(one for one in mutants_of(source, file) if (one.old, one.new) == ("2", "3"))
    assert workshop.notices(two_pi, tests)
    assert (tmp_path / file).read_text(encoding="utf-8") == source


DOING = """
def told(found: set, more: set) -> bool:
    if found and not more:
        more |= found
        print(more)
    return max(found | more, key=len, default=True)
"""


def test_what_is_done_at_all_is_changed_where_that_is_asked_for() -> None:
    asked = {(one.old, one.new) for one in mutants_of(DOING, "x.py", doing=True)}
    assert asked - changes(DOING) == {
        ("and", "or"),
        ("not", ""),
        ("more |= found", "pass"),
        ("print(more)", "pass"),
        ("max", "min"),
        ("|", "&"),
        ("True", "False"),
    }
    for one in mutants_of(DOING, "x.py", doing=True):
        compile(one.applied(DOING), "x.py", "exec")


def test_every_test_that_is_named_for_a_module_is_there() -> None:
    listed = yaml.safe_load(REACHING.read_text("utf-8"))
    assert [file for file in listed if not (CHECKOUT / file).is_file()] == []
    assert [
        name for tests in listed.values() for name in tests if not (CHECKOUT / "tests" / name).is_file()
    ] == []


def test_every_survivor_that_is_listed_is_in_a_file_that_is_there() -> None:
    listed = yaml.safe_load(LISTED.read_text("utf-8"))
    assert [name for name in listed if not (CHECKOUT / name.split()[0]).is_file()] == []


def test_every_module_that_could_fall_silent_is_looked_at() -> None:
    """A module that is moved or new would be passed over, and nothing would say so."""
    listed = yaml.safe_load(REACHING.read_text("utf-8"))
    rooms = ("read", "findings", "cli/call")
    there = {
        file.relative_to(CHECKOUT).as_posix()
        for room in rooms
        for file in (CHECKOUT / "riglint" / room).rglob("*.py")
        if file.name != "__init__.py"
    }
    assert there - listed.keys() == set()
