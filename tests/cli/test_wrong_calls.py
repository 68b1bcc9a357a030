"""A call that can't be read: exit status 2, no report, one sentence with the nearest right spelling."""

from pathlib import Path

import pytest

from tests.cli.calling import run

AUDIT = "`riglint audit --help` lists what it takes."
WRONG = {
    "audit . --frmat json": f"'--frmat' is no option of riglint audit. Did you mean '--format'? {AUDIT}",
    "audit . --frmat=json": f"'--frmat' is no option of riglint audit. Did you mean '--format'? {AUDIT}",
    "audit . -z": f"'-z' is no option of riglint audit. {AUDIT}",
    "audit . --format": f"--format: a value must follow it. {AUDIT}",
    "audit . --units feet": f"--units can't be 'feet'. Expected: metric, imperial, both. {AUDIT}",
    "audit . --stop-at warnin": (
        f"--stop-at can't be 'WARNIN'. Did you mean 'WARNING'? Expected: NOTICE, CAUTION, WARNING, DANGER. {AUDIT}"
    ),
    "audit . --on tomorrow": (
        f"--on: 'tomorrow' is not a date; write year-month-day, such as 2026-05-02. {AUDIT}"
    ),
    "audit . --jobs 0": f"--jobs: '0' is no number of jobs. Write auto, or 1 to 256. {AUDIT}",
    "audit one.yaml --brief two.yaml": (
        f"'two.yaml' comes after an option. Write all names together, at the end. {AUDIT}"
    ),
    "card": "riglint card needs RIG. `riglint card --help` lists what it takes.",
    "card a.yaml b.yaml": (
        "'b.yaml' is one name too many for riglint card. `riglint card --help` lists what it takes."
    ),
    "plot a.yaml": "riglint plot needs --over. `riglint plot --help` lists what it takes.",
    "plot a.yaml --over k --points 42": (
        "--points: '42' is no number of points. Write 2 to 41. `riglint plot --help` lists what it takes."
    ),
    "tab-key bsh": (
        "SHELL can't be 'bsh'. Did you mean 'bash'? Expected: bash, zsh, fish. "
        "`riglint tab-key --help` lists what it takes."
    ),
    "--verison": (
        "'--verison' is no option of riglint. Did you mean '--version'? `riglint --help` lists what it takes."
    ),
}


@pytest.mark.parametrize("call", WRONG)
def test_a_wrong_call_is_answered_in_a_sentence(tmp_path: Path, call: str) -> None:
    assert run(tmp_path, *call.split()) == (2, "", f"{WRONG[call]}\n")


@pytest.mark.parametrize("call", [("card", "a.yaml", "two\nrows"), ("two\nrows",)])
def test_a_word_of_two_rows_stays_in_its_row(tmp_path: Path, call: tuple[str, ...]) -> None:
    """Else a word could write rows of its own into a log."""
    status, out, err = run(tmp_path, *call)
    assert (status, out) == (2, "")
    assert "two rows" in err
    assert err.count("\n") == 1


def test_a_call_of_nothing_shows_what_there_is(tmp_path: Path) -> None:
    status, out, err = run(tmp_path)
    assert (status, out) == (2, "")
    assert all(f"    {command} " in err for command in ("audit", "card", "gauge"))
