"""Work grows with what there is to judge, not with its square: the longest chains and lists that a file can hold.

Processor time is compared with processor time, of a rig with one that holds four times as much: four would be
even, sixteen the square.
"""

import gc
from collections.abc import Callable
from datetime import date
from pathlib import Path
from time import process_time

import pytest

from riglint.findings import audit
from riglint.rulebook import Rulebook, load_rulebook
from tests.cli.calling import SOUND, write

ON = date(2026, 5, 2)


def rings(number: int) -> str:
    """A chain with so many rings before its webbing, of which nothing is known."""
    return SOUND.replace(
        "  - {part: webbing_anchor", "  - {part: ring}\n" * number + "  - {part: webbing_anchor", 1
    )


def accepted(number: int) -> str:
    entry = "  - {{rule: gear/inspection, part: 'chain[{n}]', reason: x, role: y, until: 2026-06-01}}\n"
    rows = "".join(entry.format(n=n) for n in range(number))
    return SOUND.replace("accepted: []\n", f"accepted:\n{rows}")


def seconds(file: Path, book: Rulebook) -> float:
    """Measure without the garbage collector, which walks all that earlier tests have left."""
    gc.collect()
    gc.disable()
    try:
        start = process_time()
        found = audit([file], book, ON)
        took = process_time() - start
    finally:
        gc.enable()
    assert found.files[0].judged
    return took


@pytest.mark.parametrize(("text", "few"), [(rings, 400), (accepted, 2000)])
def test_four_times_as_much_takes_about_four_times_as_long(
    library: Path, text: Callable[[int], str], few: int
) -> None:
    book = load_rulebook()
    seconds(write(library / "warm.yaml", text(10)), book)
    files = [write(library / f"{times}.yaml", text(few * times)) for times in (1, 4)]
    one, four = (min(seconds(file, book) for _ in range(3)) for file in files)
    assert four < 9.0 * one
