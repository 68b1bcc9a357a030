"""Prints the findings of rigs as a table, gravest first.

python examples/scripts/findings_table.py examples/faulty
"""

import sys

import riglint


def rows(found: riglint.Audit) -> list[tuple[str, str, str, str]]:
    """Return signal word, rule, place and message of each finding that counts."""
    counted = [one for one in found.findings if one.counts and one.kind != "review"]
    counted.sort(key=lambda one: (-one.signal, one.at.path, one.at.line))
    return [(one.signal.name, one.rule, f"{one.at.path}:{one.at.line}", one.message) for one in counted]


if __name__ == "__main__":
    for word, rule, place, message in rows(riglint.audit(sys.argv[1:])):
        print(f"{word:8} {rule:28} {place:28} {message}")
