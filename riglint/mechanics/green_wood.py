"""Strength of green wood by species, for the bending of a stem.

Mean values of small clear specimens, green: USDA Forest Products Laboratory, Wood Handbook, table 5-3a
(FPL-GTR-282, 2021; the same figures in FPL-GTR-190, 2010), pp. 5-5 to 5-8. Not every row of that table stands
here, only rows that were read: some pines on the page of GTR-190, the others in a published digitisation of
GTR-282. Species that the table does not hold, most European trees among them, count as unknown. A standing
tree is weaker than a clear specimen.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

UNKNOWN_COMPRESSION_PA = 15e6  # the lowest row read (spruce, Engelmann)

# Compression parallel to grain, modulus of rupture; MPa as printed in kPa. Redwood is left out: of its
# weaker, young-growth row the compression strength was not read.
_GREEN_MPA: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "ash, white": (27.5, 66),
        "cherry, black": (24.4, 55),
        "maple, sugar": (27.7, 65),
        "oak, northern red": (23.7, 57),
        "oak, white": (24.5, 57),
        "yellow-poplar": (18.3, 41),
        "douglas-fir, coast": (26.1, 53),
        "douglas-fir, interior north": (23.9, 51),
        "douglas-fir, interior west": (26.7, 53),
        "fir, balsam": (18.1, 38),
        "fir, california red": (19.0, 40),
        "fir, grand": (20.3, 40),
        "fir, noble": (20.8, 43),
        "fir, pacific silver": (21.6, 44),
        "fir, subalpine": (15.9, 34),
        "fir, white": (20.0, 41),
        "hemlock, eastern": (21.2, 44),
        "hemlock, mountain": (19.9, 43),
        "hemlock, western": (23.2, 46),
        "larch, western": (25.9, 53),
        "pine, jack": (20.3, 41),
        "pine, loblolly": (24.2, 50),
        "pine, lodgepole": (18.0, 38),
        "pine, longleaf": (29.8, 59),
        "pine, pond": (25.2, 51),
        "pine, ponderosa": (16.9, 35),
        "pine, red": (18.8, 40),
        "pine, shortleaf": (24.3, 51),
        "pine, slash": (26.3, 60),
        "pine, spruce": (19.6, 41),
        "pine, sugar": (17.0, 34),
        "pine, virginia": (23.6, 50),
        "pine, western white": (16.8, 32),
        "spruce, engelmann": (15.0, 32),
    }
)


@dataclass(frozen=True, slots=True)
class GreenWood:
    """Green strength, Pa. `name` is the row taken, or the word given when unknown.

    `read` says whether the figure was read in the table; `how` how it was found. `rupture_pa` is None when
    unknown.
    """

    name: str
    compression_pa: float
    rupture_pa: float | None
    read: bool
    how: Literal["row", "genus", "unknown"]


def names() -> tuple[str, ...]:
    """All names that `green_wood` knows: rows of the table, then genus words.

    >>> [name for name in names() if "larch" in name]
    ['larch, western', 'larch']
    """
    genera = dict.fromkeys(row.split(",")[0] for row in _GREEN_MPA)
    return (*_GREEN_MPA, *(genus for genus in genera if genus not in _GREEN_MPA))


def _row(name: str, how: Literal["row", "genus"]) -> GreenWood:
    compression_mpa, rupture_mpa = _GREEN_MPA[name]
    return GreenWood(name, compression_mpa * 1e6, rupture_mpa * 1e6, read=True, how=how)


def green_wood(species: str | None) -> GreenWood:
    """Green compression strength and modulus of rupture (Pa) of a species, by common name or genus word.

    A row is named as in the table (`larch, western`) or as spoken (`western larch`), in any case. A genus
    word (`larch`, `oak`) takes the lowest of its rows that was read, and `how` says so: an unread species of
    the genus may be weaker. Anything else, and None, counts as 15 MPa, `how` "unknown". Raises nothing.
    Source: see the module.

    >>> wood = green_wood("oak")
    >>> (wood.name, wood.compression_pa, wood.how)
    ('oak, northern red', 23700000.0, 'genus')
    """
    word = " ".join((species or "").casefold().split())
    if word in _GREEN_MPA:
        return _row(word, "row")
    for row in _GREEN_MPA:
        genus, _, kind = row.partition(", ")
        if word == f"{kind} {genus}".strip():
            return _row(row, "row")
    of_genus = [row for row in _GREEN_MPA if row.split(",")[0] == word]
    if of_genus:
        return _row(min(of_genus, key=_GREEN_MPA.__getitem__), "genus")
    return GreenWood(word, UNKNOWN_COMPRESSION_PA, None, read=False, how="unknown")
