"""Where the segments of a line lie: a load where webbings meet or end."""

from itertools import pairwise

import pytest

from riglint.mechanics.span.along import hang_along
from riglint.mechanics.span.cut import Line, Reach, Webbing, cut
from riglint.mechanics.span.line import Equilibrium, hang, profile
from riglint.mechanics.span.stretch import StretchLaw

SOFT = StretchLaw.linear(90e3)


def joined(rise_m: float = -2.0, longer_m: float = 0.0) -> Line:
    webbings = (Webbing(40.0 + longer_m, 0.6, SOFT), Webbing(55.0, 0.9, SOFT))
    return Line(100.0, rise_m, Reach(1.0, 1e-5, 3e3), webbings, Reach(2.0))


def rest(of: Line, load_n: float, fraction: float) -> Equilibrium:
    found = hang(of, load_n, fraction)
    assert isinstance(found, Equilibrium)
    return found


@pytest.mark.parametrize(("fraction", "ahead", "behind"), [(0.0, 1, 3), (40.0 / 95.0, 2, 2), (1.0, 3, 1)])
def test_load_where_webbings_meet_or_end_cuts_none(fraction: float, ahead: int, behind: int) -> None:
    parts = cut(joined(), 800.0, fraction)
    assert (len(parts.chain.ahead), len(parts.chain.behind)) == (ahead, behind)
    assert all(segment.length > 0.0 for segment in parts.chain.ahead + parts.chain.behind)
    assert parts.webbings == joined().webbings


@pytest.mark.parametrize("share", [0.75, 0.1, 0.3])
def test_load_at_the_end_of_webbing_in_parts_leaves_nothing_of_it(share: float) -> None:
    """0.1 and 0.9 of a length may be less than the whole by the last bit."""
    for length_m in (2.0, 2.9, 7.3, 61.7):
        parts = (Webbing(share * length_m, 0.6, SOFT), Webbing((1.0 - share) * length_m, 0.6, SOFT))
        found = cut(Line(2.5, 0.0, Reach(0.1), parts, Reach(0.2)), 1.0, 1.0)
        assert len(found.chain.behind) == 1


def test_load_at_the_very_end_of_a_line_without_a_reach() -> None:
    bare = Line(100.0, -2.0, Reach(0.0), (Webbing(97.0, 0.6, SOFT),), Reach(0.0))
    for fraction, place in ((0.0, (0.0, 0.0)), (1.0, (100.0, -2.0))):
        found = rest(bare, 800.0, fraction)
        assert (found.load_x_m, found.load_y_m) == pytest.approx(place, abs=1e-9)
        assert found.horizontal_n == pytest.approx(rest(bare, 0.0, 0.5).horizontal_n)


def test_load_of_nobody_adds_nothing_on_the_way() -> None:
    """Of a sweep with nobody on the line, too."""
    (swept,) = hang_along(joined(), 0.0, [0.3])
    for found in (rest(joined(), 0.0, 0.3), swept):
        assert isinstance(found, Equilibrium)
        for one, other in pairwise(found.placed):
            assert other.v == pytest.approx(one.end_v, abs=1e-9)
            assert (other.x, other.y) == (one.end_x, one.end_y)
        assert found.placed[-1].far_tension == pytest.approx(found.tension_b_n)


@pytest.mark.parametrize("points", [0, 1])
def test_profile_of_hardly_any_points_has_the_ends_of_every_piece(points: int) -> None:
    of = Line(100.0, -2.0, Reach(1.0), (Webbing(95.0, 0.6, SOFT),), Reach(2.0))
    found = rest(of, 800.0, 0.02)
    ends = [(0.0, 0.0), *((piece.end_x, piece.end_y) for piece in found.placed)]
    positions = profile(of, found, points)
    assert len(positions) == len(ends) == 5
    for position, end in zip(positions, ends, strict=True):
        assert position == pytest.approx(end)


def test_profile_has_about_as_many_points_as_asked_for() -> None:
    found = rest(joined(), 800.0, 40.0 / 95.0)
    assert len(profile(joined(), found, 95)) == 1 + 1 + 40 + 55 + 1  # a metre apart, and the reaches
