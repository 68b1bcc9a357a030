"""A ratchet, lever hoist or webbing tackle: what the crew could reach with it."""

from __future__ import annotations

from riglint.loadpath import Placed
from riglint.loads.inputs import At, need, within_range
from riglint.loads.path.geometry import Geometry
from riglint.mechanics.rope.tackle import strand_sum
from riglint.model.documents.parts import Part

ONE_HANDLE = frozenset({"ratchet", "lever_hoist"})  # only one person can work it


class Puller:
    """A puller in the chain."""

    def __init__(self, geometry: Geometry, placed: Placed) -> None:
        self.geometry, self.placed = geometry, placed
        self.part: Part = placed.part
        self.values = geometry.values

    @property
    def form(self) -> str:
        """Which kind it is.

        Raises:
            MissingInput: neither gear nor form is given.
        """
        item = need(self.placed.item, self.geometry.on_part(self.placed, "gear"))
        return need(item.gear.form, self.geometry.on_item(item, "form", self.placed))

    @property
    def ratio(self) -> float:
        """Its ideal ratio: as the file says, else the usual one of its form; errors as `form`."""
        return float(self.part.ratio) if self.part.ratio else self.values[f"puller_ratio.{self.form}"]

    @property
    def ratio_assumed(self) -> bool:
        """Whether the file leaves the ratio out, so that the usual one of its form is taken."""
        return self.part.ratio is None

    @property
    def hands(self) -> int:
        """People who can pull on it at once; errors as `form`.

        Raises:
            MissingInput: the plan does not say how many haul on a tackle.
        """
        if self.form in ONE_HANDLE:
            return 1
        plan, document = self.geometry.rig.rig.plan, self.geometry.rig.document
        crew = plan.crew if plan else None
        return need(crew.haulers if crew else None, At(document, ("plan", "crew", "haulers")))

    @property
    def pull_each_n(self) -> float:
        """What one person keeps up, N: as planned, and never less than the policy's value."""
        plan = self.geometry.rig.rig.plan
        planned = plan.crew.pull_each if plan and plan.crew else None
        return max(planned.si if planned else 0.0, self.values["overshoot_pull"])

    @within_range("the puller")
    def overshoot_n(self) -> float:
        """Return the line tension that the crew could reach, N; errors as `form` and `hands`.

        A tackle loses a share at each bend, least at the high end of its efficiency; a ratchet or hoist is taken
        without loss.
        """
        hand_n = self.pull_each_n * self.hands
        if self.form in ONE_HANDLE:
            return hand_n * self.ratio
        return hand_n * strand_sum(max(round(self.ratio), 1), self.values["webbing_bend_high"])

    def overshoot_words(self) -> str:
        """Return what is pulled with, as the state says it; errors as `overshoot_n`."""
        assumed = ", its usual ratio" if self.ratio_assumed else ""
        form = self.form.replace("_", " ")
        return f"{self.hands} on the {form} of {self.ratio:g}:1{assumed}, pulling steadily"
