"""Least strengths of connectors by class, EN 12275:2013, read in two test-house summaries.

A connector's own marking comes before these figures.
"""

from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class ConnectorClass:
    """Least strengths, N; None where the standard asks for none.

    `major_n` along the spine, gate closed; `open_n` along the spine, gate open (not asked for where the gate
    locks by itself); `minor_n` across.
    """

    letter: str
    name: str
    major_n: float
    open_n: float | None
    minor_n: float | None


CONNECTOR_CLASSES = (
    ConnectorClass("B", "basic", 20e3, 7e3, 7e3),
    ConnectorClass("H", "belaying with a hitch", 20e3, 6e3, 7e3),
    ConnectorClass("K", "via ferrata", 25e3, 8e3, 7e3),
    ConnectorClass("A", "specific anchor", 20e3, 7e3, None),
    ConnectorClass("T", "termination", 20e3, 7e3, None),
    ConnectorClass("Q", "screwed link", 25e3, None, 10e3),
    ConnectorClass("X", "oval", 18e3, 5e3, 7e3),
)


def connector_class(letter: str) -> ConnectorClass:
    """The least strengths of a connector of one class; looked up, no equation.

    Args:
        letter: the letter of the class, in capitals: B, H, K, A, T, Q or X.

    Returns:
        The class, strengths in N.

    Raises:
        ValueError: no class has that letter.

    Valid: a connector without strengths marked on it; a marking comes first.

    Source: EN 12275:2013, read in two test-house summaries.

    >>> connector_class("Q").minor_n
    10000.0
    """
    for one in CONNECTOR_CLASSES:
        if one.letter == letter:
            return one
    known = " ".join(one.letter for one in CONNECTOR_CLASSES)
    raise ValueError(f"no connector class {letter!r}; EN 12275 has {known}")
