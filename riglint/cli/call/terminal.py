"""How wide the terminal is, as `shutil` tells it: its module takes longer to load than a whole audit needs to ask."""

from __future__ import annotations

import argparse
import os
import sys

USUAL = 80  # characters


def columns(usual: int = USUAL) -> int:
    """Return the width that COLUMNS names, else that of the terminal, else the usual one."""
    try:
        named = int(os.environ["COLUMNS"])
    except (KeyError, ValueError):
        named = 0
    if named > 0:
        return named
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or usual  # type: ignore[union-attr]
    except (AttributeError, ValueError, OSError):  # there is no standard output, or it is no terminal
        return usual


class Formatter(argparse.HelpFormatter):
    """Lays out help; the parser makes one for each option that it is told of."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=columns() - 2)  # as `argparse` leaves it
