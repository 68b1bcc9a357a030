"""Every command that a page shows is run, and prints what the page shows of it.

A block ```sh is run; a block ```text after it holds lines of its output, where `…` at the end of a line, or alone
on one, stands for anything. A comment `<!-- ends with 1 -->` before a block names another exit status than 0,
`<!-- not run: reason -->` takes it out.
Commands inside a sentence are run where they are whole, and held to the names of commands where they are not.
"""

import os
import re
import sys
from importlib.util import find_spec
from pathlib import Path
from typing import NamedTuple

import pytest

from riglint import cli
from tests.package.checkout import CHECKOUT, copy_sources, program, started

ALONE = "examples/guides/ten-minutes.md"  # begins in an empty folder, each block after the one before
PAGES = [
    "README.md",
    "DEVELOPERS.md",
    "examples/README.md",
    *sorted(path.relative_to(CHECKOUT).as_posix() for path in (CHECKOUT / "examples/guides").glob("*.md")),
]
BLOCK = re.compile(
    r"(?:^ *<!-- (?P<said>[^\n]*) -->\n)?^(?P<indent> *)```sh\n(?P<code>.*?)^ *```\n"
    r"(?:\n *```text\n(?P<shown>.*?)^ *```$)?",
    re.MULTILINE | re.DOTALL,
)
COMMANDS = tuple(map(cli.name_of, cli.COMMANDS))
# Of a sentence: what needs a repository with branches, or stands for any file.
PLACEHOLDER = re.compile(r"\b[A-Z]{2,}\b(?<!HEAD)|…|\[")
NEEDS_GIT = re.compile(r"\.\.HEAD|\bstaged\b")


class Block(NamedTuple):
    """A block of commands of a page."""

    page: str
    code: str
    shown: str
    status: int
    why_not: str


def blocks(page: str) -> list[Block]:
    """Return the blocks of commands of a page."""
    found = []
    for match in BLOCK.finditer((CHECKOUT / page).read_text(encoding="utf-8")):
        said = match["said"] or ""
        ends = re.fullmatch(r"ends with (\d)", said)
        why_not = said.partition("not run: ")[2]
        cut = re.compile(f"^{match['indent']}", re.MULTILINE)
        code, shown = cut.sub("", match["code"]), cut.sub("", match["shown"] or "")
        found.append(Block(page, code, shown, int(ends[1]) if ends else 0, why_not))
    return found


BLOCKS = [block for page in PAGES for block in blocks(page)]
RUN = [block for block in BLOCKS if not block.why_not and block.page != ALONE]
INLINE = sorted(
    {
        (page, said)
        for page in PAGES
        for said in re.findall(r"`(riglint [^`\n]+)`", (CHECKOUT / page).read_text(encoding="utf-8"))
    }
)


def run(block: Block, where: Path) -> None:
    """Run a block and hold it to its exit status and what the page shows of its output."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    result = started(["bash", "-euo", "pipefail", "-c", block.code], where, PATH=path, COLUMNS="80")
    assert result.returncode == block.status, f"{block.code}{result.stdout}"
    rest = result.stdout
    for piece in filter(None, re.split(r"…\n", block.shown)):
        _, found, rest = rest.partition(piece)
        assert found == piece, f"no longer printed so by {block.code}\n{piece}"


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("copy")
    copy_sources(folder, ("examples",))
    return folder


def test_no_block_is_passed_over() -> None:
    pages = "\n".join((CHECKOUT / page).read_text(encoding="utf-8") for page in PAGES)
    assert len(re.findall(r"^ *```sh$", pages, re.MULTILINE)) == len(BLOCKS) > 15
    assert [block.code for block in BLOCKS if not block.why_not and not block.code.strip()] == []


def test_what_a_page_shows_stands_after_a_command() -> None:
    for page in PAGES[3:]:
        text = (CHECKOUT / page).read_text(encoding="utf-8")
        shown = sum(bool(block.shown) for block in blocks(page))
        assert len(re.findall(r"^ *```text$", text, re.MULTILINE)) == shown, page


@pytest.mark.parametrize("block", RUN, ids=lambda block: f"{block.page}: {block.code.splitlines()[0][:60]}")
def test_a_command_does_what_its_page_says(block: Block, copy: Path) -> None:
    run(block, copy)


def test_the_first_guide_goes_from_an_empty_folder_to_its_end(tmp_path: Path) -> None:
    for block in blocks(ALONE):
        run(block, tmp_path)
    assert (tmp_path / "low-line.yaml").is_file()


@pytest.mark.parametrize(("page", "said"), INLINE)
def test_a_command_in_a_sentence_is_one(page: str, said: str, copy: Path) -> None:
    word, *more = said.split()[1:]
    if word.startswith("-"):
        pytest.fail(f"{page}: `{said}` names no command")
    assert word in COMMANDS, f"{page}: `{said}`"
    if not more or PLACEHOLDER.search(said) or NEEDS_GIT.search(said):
        return
    result = started([program("riglint"), *said.split()[1:]], copy, COLUMNS="80")
    assert result.returncode in {0, 1}, result.stdout


@pytest.mark.parametrize("page", PAGES)
def test_modules_and_programs_of_a_sentence_are_there(page: str) -> None:
    text = (CHECKOUT / page).read_text(encoding="utf-8")
    modules = set(re.findall(r"python -m ([\w.]+)", text))
    assert [name for name in modules if find_spec(name) is None] == []
    calls = re.findall(r"`\.venv/bin/(\w[\w-]*)([^`]*)`", text)
    assert [name for name, _ in calls if not Path(program(name)).exists()] == []
    paths = [one for _, rest in calls for one in rest.split() if "/" in one]
    assert [one for one in paths if not (CHECKOUT / one).exists()] == []
