"""The stem of a tree under the pull of the line. It judges bending alone: no roots, decay, forks or wind."""

from __future__ import annotations

from dataclasses import replace
from math import pi

from riglint.loads.inputs import MissingInput, NotComputable, need_all
from riglint.loads.path.geometry import Geometry
from riglint.mechanics.anchors import trunk
from riglint.mechanics.anchors.green_wood import UNKNOWN_COMPRESSION_PA, GreenWood, green_wood
from riglint.mechanics.valid_range import Numbers
from riglint.model.documents.spot import Anchor
from riglint.records import dataclass


@dataclass(frozen=True, slots=True)
class TreePull(Numbers):
    """The greatest peak at an anchor and the height above the ground where it pulls."""

    state: str
    tension_n: float
    height_m: float

    @property
    def moment_nm(self) -> float:
        """Bending moment at the ground, T·h."""
        return self.tension_n * self.height_m


@dataclass(frozen=True, slots=True)
class TreeStem(Numbers):
    """One stem: the stress that the pull makes at the ground, and the stress that it is credited with."""

    pull: TreePull
    bark_m: float
    diameter_m: float  # inside the bark
    species: str | None  # as the spot names it
    wood: GreenWood  # the row of the table that was taken
    rows: int  # species of that genus that were read
    quality: float
    stress_pa: float
    allowable_pa: float
    spread: float = (
        0.0  # strength of the weakest kind of a genus over that of another; 0 where any wood is feared
    )

    @property
    def ratio(self) -> float:
        """Allowable stress over stress."""
        return self.allowable_pa / self.stress_pa if self.stress_pa > 0.0 else float("inf")

    @property
    def ratio_of_weakest(self) -> float:
        """The same with the weakest wood of its genus that one must reckon with."""
        return self.ratio * max(UNKNOWN_COMPRESSION_PA / self.wood.compression_pa, self.spread)

    @property
    def one_species_for_genus(self) -> bool:
        """Whether a genus word was answered by its only species read, so that the tree may be weaker."""
        return self.wood.how == "genus" and self.rows == 1

    @property
    def wood_words(self) -> str:
        """Which wood was taken and how far that may be trusted."""
        if self.wood.how == "unknown":
            if not self.species:
                return "species not named, so the weakest wood in the table is taken"
            return f"'{self.species}' is not in the table of green wood, so the weakest wood in it is taken"
        seen = "" if self.wood.read else ", a figure from memory"
        if self.wood.how == "row":
            return f"green {self.wood.name}{seen}"
        if self.one_species_for_genus:
            return (
                f"green {self.wood.name}, the only {self.species} in the tables{seen}: others may be weaker"
            )
        return f"green {self.wood.name}, the weakest of {self.rows} kinds of {self.species}{seen}"

    def greatest_height_m(self, ratio: float) -> float:
        """Height of the sling at which the stem would keep a ratio under the same pull."""
        return self.pull.height_m * self.ratio / ratio

    def greatest_tension_n(self, ratio: float) -> float:
        """TreePull under which the stem would keep a ratio at the same height."""
        return self.pull.tension_n * self.ratio / ratio

    def least_girth_m(self, ratio: float) -> float:
        """Girth over the bark at which a stem of this wood would keep a ratio: W grows with d³."""
        diameter_m: float = self.diameter_m * (ratio / self.ratio) ** (1.0 / 3.0)
        return pi * (diameter_m + 2.0 * self.bark_m)


def tree_stem(geometry: Geometry, name: str, pull: TreePull) -> TreeStem:
    """Return the bending of a tree's stem, by its name on the spot, under a pull.

    Raises:
        MissingInput: girth or bark are not said.
        NotComputable: a value lies outside what the formulas cover.
    """
    tree = geometry.spot.anchors.get(name)
    if tree is None:
        raise MissingInput(geometry.on_spot("anchors", name))
    place = ("anchors", name)
    need_all((tree.girth, geometry.on_spot(*place, "girth")), (tree.bark, geometry.on_spot(*place, "bark")))
    sound, unknown = geometry.values["stem_quality.sound"], geometry.values["stem_quality.unknown"]
    bark_m = geometry.values[f"bark.{tree.bark}"]
    try:
        quality = sound if tree.health == "sound" else unknown
        stem = stem_under(tree, pull, bark_m, quality, geometry.values["stem_safety"])
        return replace(stem, spread=geometry.values["genus_spread"])
    except ValueError as error:
        raise NotComputable(f"the stem of '{name}' lies outside the formula: {error}") from None


def stem_under(
    tree: Anchor, pull: TreePull, bark_m: float, quality: float, safety: float = trunk.BASIC_SAFETY
) -> TreeStem:
    """Return the bending of a stem of known girth: 32·T·h/(π·d³) at the ground.

    It is held against green compression strength over `safety` and the quality factor. `bark_m` thickness of the
    bark, `quality` and `safety` 1 to 10. Ranges as `riglint.mechanics.anchors.trunk`.
    ValueError outside, or without a girth. Source: beam theory; Wood Handbook table 5-3a; the quality factor,
    which stands for the step from small clear specimens to a standing tree, is our own choice.
    """
    if tree.girth is None:
        raise ValueError("no girth")
    # Both kinds get the one thickness: which bark it is, and how thick, was settled before.
    diameter_m = trunk.inner_diameter_m(tree.girth.si, "rough", {"rough": bark_m, "smooth": bark_m})
    wood = green_wood(tree.species)
    return TreeStem(
        pull,
        bark_m,
        diameter_m,
        tree.species,
        wood,
        wood.rows,
        quality,
        trunk.bending_stress_pa(pull.tension_n, pull.height_m, diameter_m),
        trunk.allowable_stress_pa(wood.compression_pa, quality, safety),
    )
