"""Prints what the tests here compare: `python -m tests.published.table`.

It runs the tests of this folder and writes down every comparison that they make, so the table can hold nothing that
no test checks, and every source must be in it. Of a library's many random cases the worst one stands for all.
"""

import io
import sys
from collections.abc import Iterable
from contextlib import redirect_stdout

import pytest

from tests.published.sources import HERE, LISTENERS, Compared, PublishedSource

HEAD = "| check | expected | got | relative error | allowed | mark | source |\n|---|---|---|---|---|---|---|"


def compared() -> list[Compared]:
    """Every comparison of a whole run of the tests in this folder."""
    found: list[Compared] = []
    said = io.StringIO()
    LISTENERS.append(found.append)
    try:
        with redirect_stdout(said):
            status = pytest.main([str(HERE), "-q", "-p", "no:cacheprovider"])
    finally:
        LISTENERS.remove(found.append)
    if status != pytest.ExitCode.OK:
        raise SystemExit(said.getvalue())
    return found


def unused(found: Iterable[Compared]) -> set[str]:
    """Files of published values that no comparison used."""
    return {path.stem for path in HERE.glob("*.yaml")} - {one.source.name for one in found}


def rows(found: Iterable[Compared]) -> list[tuple[Compared, int]]:
    """Comparisons in the order of their sources, each with how many it stands for."""
    kept: dict[tuple[str, ...], tuple[Compared, int]] = {}
    for number, one in enumerate(found):
        many = one.source.origin == "library"
        key = (one.source.name, one.check.partition("[")[0]) if many else (one.source.name, str(number))
        before, count = kept.get(key, (one, 0))
        kept[key] = (max(before, one, key=lambda it: it.relative_error), count + 1)
    return sorted(kept.values(), key=lambda row: row[0].source.name)


def line(one: Compared, count: int) -> str:
    check = one.check.partition("[")[0].removeprefix("test_").replace("_", " ")
    of_many = f", worst of {count}" if count > 1 else ""
    numbers = f"{one.expected:.10g} | {one.computed:.10g} | {one.relative_error:.1e}"
    source = one.source
    return f"| {check}{of_many} | {numbers} | {allowed(source)} | {source.mark} | {source.citation.strip()} |"


def allowed(source: PublishedSource) -> str:
    ((kind, size),) = source.tolerance.items()
    return {
        "relative": f"{size:g} of it",
        "absolute": f"± {size:g}",
        "last_digit": f"± {size:g} of the last digit",
    }[kind]


def markdown(found: list[Compared]) -> str:
    """Two tables: what stands outside this project, then what was worked out beside the program."""
    titles = {False: "Outside this project", True: "Worked out for this project, apart from the program"}
    text = []
    for own, title in titles.items():
        chosen = [one for one in found if (one.source.origin == "own") is own]
        sources = {one.source.name for one in chosen}
        text += [f"## {title}", "", f"{len(chosen)} comparisons with {len(sources)} sources.", "", HEAD]
        text += [line(one, count) for one, count in rows(chosen)]
        text.append("")
    return "\n".join(text)


def main() -> None:
    found = compared()
    if never := unused(found):
        raise SystemExit(f"no test compares anything with {', '.join(sorted(never))}")
    sys.stdout.write(markdown(found))


if __name__ == "__main__":
    main()
