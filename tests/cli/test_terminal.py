"""The width that lines are laid out for is the one that the standard library tells."""

import argparse
import os
import shutil
import sys

import pytest

from riglint.cli.call.arguments import Parser
from riglint.cli.call.terminal import columns


@pytest.mark.parametrize("named", [None, "", "0", "-3", "x", "1", "57", "200"])
@pytest.mark.parametrize("terminal", [None, 0, 132])
def test_it_is_that_of_the_standard_library(
    named: str | None, terminal: int | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    def size(_number: int) -> os.terminal_size:
        if terminal is None:
            raise OSError("no terminal")
        return os.terminal_size((terminal, 24))

    class Stream:
        def fileno(self) -> int:
            return 1

    monkeypatch.setattr(os, "get_terminal_size", size)
    monkeypatch.setattr(sys, "__stdout__", Stream())
    monkeypatch.delenv("COLUMNS", raising=False)
    if named is not None:
        monkeypatch.setenv("COLUMNS", named)
    assert columns() == shutil.get_terminal_size().columns
    assert columns(100) == shutil.get_terminal_size((100, 24)).columns


@pytest.mark.parametrize("named", ["40", "80", "150"])
def test_help_is_as_wide_as_the_standard_librarys(named: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", named)
    ours, theirs = Parser(prog="x"), argparse.ArgumentParser(prog="x", allow_abbrev=False)
    for parser in (ours, theirs):
        parser.add_argument("--long-name", help="words that are said about it " * 5)
    assert ours.format_help() == theirs.format_help()


def test_no_standard_output_is_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.setattr(sys, "__stdout__", None)
    assert columns() == 80
