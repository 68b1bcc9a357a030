"""Writes the sentences anew that are still to be rewritten, and counts them: `python -m tests.voice`."""

from collections import Counter

from tests.voice.judged import HERE, offending
from tests.voice.texts import everything


def main() -> None:
    """Write the list and print a count for each kind of text."""
    texts = list(everything())
    found = offending(iter(texts))
    lines = "".join(f"{sentence}\n" for sentence in sorted(found))
    (HERE / "waiting.txt").write_text(lines, encoding="utf-8", newline="\n")
    of, whole = (
        Counter(where.split()[0] for where in found.values()),
        Counter(where.split()[0] for where, _ in texts),
    )
    for kind, count in whole.items():
        print(f"{kind:10} {of[kind]:5} sentences to rewrite in {count} texts")  # noqa: T201
    print(f"{'all':10} {len(found):5}")  # noqa: T201


if __name__ == "__main__":
    main()
