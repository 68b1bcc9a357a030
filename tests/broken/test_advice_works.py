"""What a message advises works: done as it says, there is no second problem at the same place."""

import re
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
import yaml

from riglint.model.library import Library
from riglint.model.references import resolve
from riglint.model.what_if import STEP
from riglint.read.problems import Problem
from riglint.read.yaml_text import resolved

HERE = Path(__file__).parent
FILES = sorted(path for path in HERE.glob("*.yaml") if path.stem != "expected")
LINE = re.compile(r"Write '([^']+: [^']+)'\.")
NEAREST = re.compile(r"Write the nearest name there, ([^,]+),")
MEANT = re.compile(r"Write `(\S+)` if you mean that\.")
EXAMPLE = re.compile(r"such as (\S.*?)(?: or \S+)?\.(?:\s|$)")
PLAIN = re.compile(
    r"Write (?!a |an |the |them |it |one |two |how |year|tensions)(.+?)(?:,| if | or |\.(?:\s|$))"
)
LEAST = 65  # of the problems of these files; the others ask for what only the writer knows


def problems_of(file: Path) -> list[Problem]:
    library = Library(file.parent)
    found = list(library.load(file).problems)
    if library.load(file).kind == "rig":
        found += [one for one in resolve(library, file)[1] if one not in found]
    return found


def steps(key: str) -> list[str | int]:
    return [int(one["number"]) if one["number"] else one["name"] for one in re.finditer(STEP, key)]


def advised(problem: Problem) -> Any:
    """Return the value that a message says to write; None where it names none."""
    for form in (NEAREST, MEANT, EXAMPLE, PLAIN):
        said = form.search(problem.do)
        if said:
            return yaml.safe_load(re.sub(r"^\w+: (?=\w+/)", "", said[1]))
    return None


def done(text: str, data: Any, problem: Problem) -> tuple[str, str] | None:
    """Return a file with what the message says, and the place to look at then; None where it leaves the how open."""
    if problem.do.startswith("Write it from this file on"):  # only the writer knows the folder
        return None
    if line := LINE.search(problem.do):
        lines = text.splitlines()
        lines[problem.place.line - 1] = line[1]
        return "\n".join(lines) + "\n", problem.key
    if comma := re.match(r"'(\d+,\d+ \w+)' has a decimal comma.*", problem.message):
        return text.replace(comma[1], comma[1].replace(",", ".")), problem.key
    return in_the_data(data, problem) if problem.key and isinstance(data, dict) else None


def in_the_data(data: Any, problem: Problem) -> tuple[str, str] | None:
    """Return a file with one key or value of its data changed as a message says; None where it names none."""
    *above, last = steps(problem.key)
    held, key = data, problem.key
    for step in above:
        held = held[step]
    if problem.rule in {"file/key", "file/kind"} and problem.instead and last in held and last != "riglint":
        renamed = {problem.instead[0] if name == last else name: value for name, value in held.items()}
        held.clear()
        held.update(renamed)
        key = problem.key[: -len(str(last))] + problem.instead[0]
    elif problem.do.startswith("Take it out."):
        del held[last]
    else:
        value = advised(problem)
        if value is None:
            return None
        held[last] = value
    return yaml.safe_dump(data, sort_keys=False), key


def second_problem(file: Path, problem: Problem, folder: Path) -> str | None:
    """Do what a message says in a copy; return what is said at that place then, "" for nothing, None if not tried."""
    document = Library(file.parent).load(file).document
    data = resolved(document.data) if document is not None else None
    raw = file.read_bytes().decode("utf-8", "replace")
    changed = done(raw, data, problem)
    if changed is None:
        return None
    text, key = changed
    assert text != raw, problem.do
    (folder / file.name).write_text(text, encoding="utf-8")
    again = [one for one in problems_of(folder / file.name) if one.key == key and key]
    if not key:
        again = [one for one in problems_of(folder / file.name) if one.place.line == problem.place.line]
    return "; ".join(f"{one.message} {one.do}" for one in again)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("advice")
    copytree(HERE / "beside", made / "beside")
    return made


def test_done_as_the_message_says_the_place_is_right(folder: Path) -> None:
    tried, wrong = 0, []
    for file in FILES:
        for problem in problems_of(file):
            told = second_problem(file, problem, folder)
            tried += told is not None
            if told:
                wrong.append(f"{file.stem}, {problem.key}: {problem.do} Then: {told}")
    assert wrong == []
    assert tried >= LEAST
