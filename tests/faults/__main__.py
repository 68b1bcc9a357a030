"""Prints what the seeded faults show, and writes it down: `python -m tests.faults`."""

from tests.faults.matrix import PAGE, page


def main() -> None:
    """Print the page and write it."""
    text = page()
    PAGE.write_text(text, encoding="utf-8", newline="\n")
    print(text)  # noqa: T201


if __name__ == "__main__":
    main()
