"""Strength of green wood by species, for the bending of a stem.

Mean values of small clear specimens, green. The rows with their sources stand in
`riglint.mechanics.anchors.green_wood_table`: trees of North America from the Wood Handbook of the USDA Forest Products
Laboratory, those of Europe from the table of Wessolly & Erb. Some were read, some are from memory, and each row says
which. A standing tree is weaker than a clear specimen.
"""

from functools import lru_cache
from typing import Literal

from riglint.mechanics.anchors.green_wood_table import ONE_OF, ROWS, SpeciesRow
from riglint.records import dataclass

_BY_NAME: dict[str, SpeciesRow] = {row.name: row for row in ROWS}
_WEAKEST = min(ROWS, key=lambda row: row.compression_mpa)
UNKNOWN_COMPRESSION_PA = _WEAKEST.compression_mpa * 1e6


@dataclass(frozen=True, slots=True)
class GreenWood:
    """Green strength, Pa. `name` is the row taken, or the word given when unknown.

    `read` says whether the figure was read in its source; `how` how it was found; `rows` how many rows the word
    could mean; `source` where the figure stands. `rupture_pa` is None where it is not known.
    """

    name: str
    compression_pa: float
    rupture_pa: float | None
    read: bool
    how: Literal["row", "genus", "unknown"]
    rows: int = 1
    source: str = ""


def names() -> tuple[str, ...]:
    """All names that `green_wood` knows: rows of the tables, their other names, then genus words.

    >>> [name for name in names() if "larch" in name]
    ['larch, western', 'larch, european', 'larch']
    """
    other = [name for row in ROWS for name in row.also]
    genera = [row.name.split(",")[0] for row in ROWS]
    return tuple(dict.fromkeys((*_BY_NAME, *other, *ONE_OF, *genera)))


def rows() -> tuple[str, ...]:
    """Names of all rows of the tables."""
    return tuple(_BY_NAME)


@lru_cache(maxsize=1024)  # its names are looked through one by one
def green_wood(species: str | None) -> GreenWood:
    """Green compression strength and modulus of rupture of a species; looked up, no equation.

    Args:
        species: common or Latin name, or a genus word, in any case: as in the table (`larch, western`) or as spoken
            (`western larch`); None where it is not known.

    Returns:
        The row in Pa. A word that means several (`larch`, `oak`, `chestnut`) takes the weakest of them; anything
        else, and None, counts as the weakest wood of the tables, `how` "unknown".

    Valid: small clear specimens; a standing tree is weaker.

    Source: the tables that the module names.

    >>> wood = green_wood("oak")
    >>> (wood.name, wood.compression_pa, wood.how)
    ('oak, willow', 20700000.0, 'genus')
    """
    word = " ".join((species or "").casefold().split())
    for row in ROWS:
        genus, _, kind = row.name.partition(", ")
        if word in {row.name, f"{kind} {genus}".strip(), *row.also}:
            return _taken([row], "row")
    found = [_BY_NAME[name] for name in ONE_OF.get(word, ())] or [
        row for row in ROWS if row.name.split(",")[0] == word
    ]
    if found:
        return _taken(found, "genus")
    return GreenWood(word, UNKNOWN_COMPRESSION_PA, None, read=False, how="unknown", rows=0)


def _taken(found: list[SpeciesRow], how: Literal["row", "genus"]) -> GreenWood:
    row = min(found, key=lambda one: one.compression_mpa)
    rupture = None if row.rupture_mpa is None else row.rupture_mpa * 1e6
    return GreenWood(
        row.name, row.compression_mpa * 1e6, rupture, row.seen == "read", how, len(found), row.source
    )
