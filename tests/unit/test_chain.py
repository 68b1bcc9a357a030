"""The chain: its segments at the bends of a stretch curve, its mirror image, and the steps of its solver."""

from decimal import Decimal, localcontext
from unittest.mock import patch

import pytest

from riglint.mechanics.span import chain
from riglint.mechanics.span.chain import Guess, LoadedChain, Segment, march, straightened
from riglint.mechanics.span.cut import Line, Reach, Webbing
from riglint.mechanics.span.line import Equilibrium, NoResult, hang
from riglint.mechanics.span.shape import PlacedPiece
from riglint.mechanics.span.stretch import StretchLaw

BENT = StretchLaw.through([(5.0, 0.02), (10.0, 0.1)])
"""Bends where forces of 3 and 4 N across and up make 5 N, without rounding."""
SOFT = StretchLaw.linear(90e3)


def bent(weight: float, length: float) -> Segment:
    return Webbing(length, weight, BENT).segment(length)


def guess(gap: float, phi: float, **change: float) -> Guess:
    plain = Guess(1.0, 0.0, -1.0, 0.0, gap, 1.0, 0.0, 1.0, (0.0,) * 7, 0.0, phi)
    return plain._replace(**change)  # type: ignore[arg-type]


@pytest.mark.parametrize("v", [-4.0, 3.0], ids=["near end", "far end"])
def test_segment_that_only_reaches_a_bend_is_not_cut(v: float) -> None:
    with patch.object(chain, "straightened") as cut:
        march(3.0, v, (bent(1.0, 1.0),))
    cut.assert_not_called()


def test_segment_that_passes_a_bend_is_cut() -> None:
    with patch.object(chain, "straightened", wraps=straightened) as cut:
        march(3.0, 3.5, (bent(1.0, 1.0),))
    cut.assert_called_once()


def test_at_a_bend_a_segment_gives_as_the_piece_above() -> None:
    _, _, x_h, _, y_v, *_ = march(5.0, 0.0, (bent(0.0, 1.0),))
    assert x_h == pytest.approx(BENT.slope(5.0), rel=1e-12)
    assert BENT.slope(5.0) == pytest.approx(0.08 / 5.0)
    assert y_v == pytest.approx(1.02 / 5.0, rel=1e-12)


def test_segment_whose_least_tension_is_the_bend_stays_whole() -> None:
    assert len(straightened(5.0, -1.0, bent(1.0, 2.0))) == 1
    assert len(straightened(4.9, -1.0, bent(1.0, 2.0))) == 3  # above, below, above
    assert len(straightened(4.9, 0.0, bent(1.0, 2.0))) == 2


@pytest.mark.parametrize(("h", "v"), [(3.0, 4.0), (6.0, 0.0)])
def test_weightless_segment_stores_what_its_curve_says(h: float, v: float) -> None:
    tension = (h * h + v * v) ** 0.5
    dx, dy, *_ = march(h, v, (bent(0.0, 2.0),))
    placed = PlacedPiece(bent(0.0, 2.0), 0.0, 0.0, h, v, dx, dy, v)
    assert placed.stretch_energy == pytest.approx(2.0 * BENT.energy(tension))
    assert placed.stretched == pytest.approx(2.0 * (1.0 + BENT.strain(tension)))


@pytest.mark.parametrize("v", [4e6, 4e3, 40.0, 0.0, -14.0, -16.0, -70.0, -4e3, -4e6])
def test_no_digit_is_lost_however_steep(v: float) -> None:
    """Against the textbook's x = (H/w)·(asinh(V₁/H) − asinh(V₀/H)) in forty decimal digits, here for a rigid one."""

    def asinh(z: Decimal) -> Decimal:
        return (abs(z) + (z * z + 1).sqrt()).ln().copy_sign(z)

    x, y, *_ = march(100.0, v, (Segment(0.5, 60.0, 0.0),))
    with localcontext() as digits:
        digits.prec = 40
        h, near, far = Decimal(100), Decimal(v), Decimal(v) + 30
        exact_x = h / Decimal("0.5") * (asinh(far / h) - asinh(near / h))
        exact_y = ((h * h + far * far).sqrt() - (h * h + near * near).sqrt()) / Decimal("0.5")
    assert x == pytest.approx(float(exact_x), rel=1e-14)
    assert y == pytest.approx(float(exact_y), rel=1e-14, abs=1e-14)


@pytest.mark.parametrize("v", [0.0, 0.4, 40.0, 4e3, 4e6])
def test_segment_seen_from_its_other_end_is_the_same_to_the_last_digits(v: float) -> None:
    """Steep or level, up or down: no digit is lost on either way."""
    segment = Segment(0.5, 60.0, 60.0 / 90e3)
    up = march(100.0, v, (segment,))
    down = march(100.0, -v - 30.0, (segment,))
    x, y, x_h, x_v, y_v, energy, _ = up
    mirrored = (x, -y, x_h, -x_v, y_v, energy, -v)
    assert down == pytest.approx(mirrored, rel=1e-13, abs=1e-13)


def test_weight_next_to_nothing_is_none() -> None:
    def hung(weight: float) -> Equilibrium | NoResult:
        return hang(Line(100.0, -2.0, Reach(0.5), (Webbing(97.0, weight, SOFT),), Reach(0.3)), 785.0, 0.4)

    weightless = hung(0.0)
    assert isinstance(weightless, Equilibrium)
    for weight in (5e-324, 1e-320, 1e-300, 1e-20):
        light = hung(weight)
        assert isinstance(light, Equilibrium)
        assert light.horizontal_n == pytest.approx(weightless.horizontal_n, rel=1e-12)
        assert light.load_y_m == pytest.approx(weightless.load_y_m, rel=1e-12)


def test_chain_that_cannot_give_has_no_newton_step() -> None:
    rigid = LoadedChain((Segment(0.0, 10.0, 0.0),), 0.0, ())
    assert chain._newton_step(chain.guessed(1e3, 0.0, rigid, 10.0, 0.0)) is None


def test_newton_step_keeps_a_tenth_of_the_horizontal_force() -> None:
    assert chain._newton_step(guess(1.0, 0.0, h=2.0, miss_x=1.5)) == (-1.5, 0.0)
    dh, dv = chain._newton_step(guess(1.0, 0.0, h=2.0, miss_x=3.6, miss_y=1.0)) or (0.0, 0.0)
    assert (dh, dv) == pytest.approx((-1.8, -0.5))


@pytest.mark.parametrize(
    ("gap", "phi", "looks"),
    [
        (0.5, 0.0, 1),  # the gap has halved
        (0.52, 0.0, 2),  # it has not: the step is halved, and then the next guess is taken
        (0.52, -1e-4, 1),  # the function has fallen by a ten-thousandth of what its slope promises
        (0.52, -0.9e-4, 2),
    ],
)
def test_line_search_halves_a_step_until_it_helps(gap: float, phi: float, looks: int) -> None:
    here, there, helped = guess(1.0, 0.0), guess(gap, phi), guess(0.1, -1.0)
    loaded = LoadedChain((), 0.0, ())
    with patch.object(chain, "guessed", side_effect=[there, helped]) as guessed:
        found = chain._line_search(loaded, 1.0, 0.0, here, (1.0, 0.0))
    assert guessed.call_count == looks
    assert found is (there if looks == 1 else helped)
    assert [call.args[0] for call in guessed.call_args_list] == [2.0, 1.5][:looks]


def test_line_search_gives_up_after_forty_halvings() -> None:
    here = guess(1.0, 0.0)
    with patch.object(chain, "guessed", return_value=guess(1.0, 1.0)) as guessed:
        assert chain._line_search(LoadedChain((), 0.0, ()), 1.0, 0.0, here, (1.0, 0.0)) is None
    assert guessed.call_count == 40


def test_solver_gives_up_after_eighty_steps() -> None:
    soft = LoadedChain((Segment(0.0, 10.0, 1e-3),), 0.0, ())
    never = guess(1.0, 0.0)
    with (
        patch.object(chain, "guessed", return_value=never),
        patch.object(chain, "_line_search", return_value=never) as searched,
    ):
        assert chain.solve(soft, 10.0, 0.0, (1e3, 0.0)) is None
    assert searched.call_count == 80


def test_a_division_by_nothing_that_no_lost_force_explains_is_not_hidden() -> None:
    soft = LoadedChain((Segment(0.0, 10.0, 1e-3),), 0.0, ())
    with (
        patch.object(chain, "guessed", return_value=guess(1.0, 0.0)),
        patch.object(chain, "_line_search", side_effect=ZeroDivisionError),
        pytest.raises(ZeroDivisionError),
    ):
        chain.solve(soft, 10.0, 0.0, (1e3, 0.0))
