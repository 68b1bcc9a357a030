"""The catch of a fall, where its solver must not go on: at a standstill, and where a line cannot give."""

import pytest

from riglint.mechanics.span.chain import Chain, LoadedChain, Segment
from riglint.mechanics.span.cut import Line, Reach, Webbing
from riglint.mechanics.span.peak import _towards_peak
from riglint.mechanics.span.stretch import StretchLaw

EVEN = 2.0**-10  # metres for each newton, without rounding
STRETCHED_M = 2.0 * (4.0 + 1000.0 * EVEN)


def level(span_m: float) -> Line:
    return Line(span_m, 0.0, Reach(0.0), (Webbing(8.0, 0.0, StretchLaw.linear(1e3)),), Reach(0.0))


@pytest.mark.parametrize("give", [0.0, EVEN], ids=["rigid", "at rest already"])
def test_newton_gives_up_where_no_step_leads_on(give: float) -> None:
    """A rigid straight line answers no force; one at rest stores no more for the first newton of load."""
    half: Chain = (Segment(0.0, 4.0, give),)
    assert _towards_peak(level(STRETCHED_M), LoadedChain(half, 0.0, half), (1000.0, 0.0), 0.0, 0.0) is None
