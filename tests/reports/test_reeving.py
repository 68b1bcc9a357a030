"""The pulley system as it is drawn: its rope pulls what the mechanics compute, every part has its name and place."""

import re
from html import unescape
from itertools import product
from typing import Any

import pytest

from riglint.mechanics.rope.tackle import hauled
from riglint.reports.drawing.haul import build_html, haul_drawing
from riglint.reports.drawing.places import PAGE
from riglint.views.drawing.haul import HaulView, haul_of
from riglint.views.drawing.reeving import Reeving, strands_of, tail_of
from tests.rigs import loads_of, rig_data

RATIOS = list(product((1, 2, 3, 4, 5, 6, 9, 15), (1, 2, 3, 4, 5), ("lead", "tail")))


def haul_data(**edits: Any) -> dict[str, Any]:
    """A sound low line with edits of its haul; `a__b` is a key within `a`, None takes it away."""
    data = rig_data("low")
    haul = next(part for part in data["chain"] if part["part"] == "haul")
    for place, value in edits.items():
        *above, last = place.split("__")
        held = haul
        for key in above:
            held = held.setdefault(key, {})
        held[last] = value
        if value is None:
            del held[last]
    return data


def view_of(**edits: Any) -> HaulView:
    view = haul_of(loads_of(haul_data(**edits)))
    assert view is not None
    return view


def ratio_edits(strands: int, multiplier: int, on: str) -> dict[str, Any]:
    """A haul of so many strands, its dead end where they end, with a multiplier or without."""
    end = "moving_block" if strands % 2 else "fixed_block"
    edits: dict[str, Any] = {"strands": strands, "rope__dead_end__on": end}
    if multiplier == 1:
        return {**edits, "multiplier": None}
    return {**edits, "multiplier__ratio": multiplier, "multiplier__strand": on}


def pull_by_the_rope(reeving: Reeving) -> float:
    """The line over the hand, by following the tension along the rope that is drawn.

    Every run of one rope carries the same without friction; a pulley is pulled by each run that ends on it. That is
    how rope rescue texts count a tackle (the tension method), and it knows nothing of the formulas of the mechanics.
    """
    hand = 1.0
    pulls_on_grip = sum("grip" in (run.start, run.end) for run in reeving.tail) * hand
    through_brake = 0.0 if any(run.own_rope for run in reeving.tail) else hand
    lead = through_brake + pulls_on_grip
    on_the_moving_block = [run for run in reeving.strands if "moving" in (run.start, run.end)]
    return lead * len(on_the_moving_block)


def runs(drawing: str) -> list[tuple[float, float, float]]:
    """Left end, right end and height of every run of rope that stands on the drawing."""
    found = re.findall(r'<line class="run" x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)"', drawing)
    return [(*sorted((float(x1), float(x2))), float(y)) for x1, y, x2 in found]  # type: ignore[misc]


@pytest.mark.parametrize(("strands", "multiplier", "on"), RATIOS)
def test_the_rope_that_is_drawn_pulls_what_the_mechanics_compute(
    strands: int, multiplier: int, on: str
) -> None:
    view = view_of(**ratio_edits(strands, multiplier, on))
    forces = hauled(
        1.0,
        strands,
        multiplier,
        efficiency=1.0,
        multiplier_efficiency=1.0,
        brake_efficiency=1.0,
        multiplier_on=view.reeving.grip_on,
    )
    assert pull_by_the_rope(view.reeving) == pytest.approx(forces.actual_ratio)
    assert view.reeving.ideal_ratio == strands * multiplier


@pytest.mark.parametrize(("strands", "multiplier", "on"), RATIOS)
def test_as_many_strands_reach_the_moving_block_on_the_paper(strands: int, multiplier: int, on: str) -> None:
    drawing = haul_drawing(view_of(**ratio_edits(strands, multiplier, on)), "one")
    reaching = [one for one in runs(drawing) if one[1] == PAGE.moving]
    assert len(reaching) == strands
    assert len(runs(drawing)) == strands + len(tail_of(multiplier, "tail" if on == "tail" else "lead"))


@pytest.mark.parametrize("strands", range(1, 21))
def test_a_rope_runs_on_from_where_it_came(strands: int) -> None:
    lead, *rest = strands_of(strands, "fixed")
    assert (lead.start, lead.end) == ("moving", "brake")
    for before, after in zip([lead, *rest], rest, strict=False):
        assert after.end == before.start  # round the sheave there
        assert after.start != after.end


@pytest.mark.parametrize("multiplier", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("on", ["lead", "tail"])
def test_each_part_that_the_file_names_stands_in_the_list_and_on_the_drawing(
    multiplier: int, on: str
) -> None:
    data = haul_data(**ratio_edits(5, multiplier, on))
    haul = next(part for part in data["chain"] if part["part"] == "haul")
    view = haul_of(loads_of(data))
    assert view is not None
    listed = " ".join(one.words for one in view.named)
    tackle = haul.get("multiplier", {})
    names = [
        haul["fixed_block"], haul["moving_block"], haul["plate"], haul["brake"]["gear"], haul["rope"]["dead_end"]["by"],
        haul["tie_back"]["gear"], haul["tie_back"]["sling"], *(tackle[key] for key in ("grip", "pulley") if tackle),
    ]  # fmt: skip
    assert [name for name in names if name not in listed] == []
    drawing = haul_drawing(view, "one")
    numbers = re.findall(r'text-anchor="middle">(\d+)</text>', drawing)
    assert sorted(map(int, numbers)) == sorted(
        2 * list(range(1, len(view.named) + 1))
    )  # at the part, in the list


WRONG: dict[str, tuple[dict[str, Any], str, str]] = {
    "dead end": ({"rope__dead_end__on": "fixed_block"}, "dead_end", "5 strands end on the moving block"),
    "an even number": ({"strands": 4}, "dead_end", "4 strands end on the fixed block"),
    "too few sheaves": ({"strands": 7}, "moving_block", "turns here 3 times. The block has 2 sheaves"),
    "brake on the wrong side": ({"brake__side": "moving"}, "brake", "belongs at the anchor"),
    "no brake": ({"brake": None}, "brake", "Nothing holds the lead"),
    "grip turned round": ({"multiplier__bites": "toward_hand"}, "grip", "slides"),
    "grip on the tail": ({"multiplier__strand": "tail"}, "grip", "drag through the brake"),
    "no stopper": ({"tail__stopper": "none"}, "tail", "rope can run out"),
    "a stopper that does not stop": ({"tail__stopper": "overhand"}, "tail", "run through the brake"),
    "people behind the anchor": ({"pull__stand": "behind"}, "hand", "Stand to the side"),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_in_the_file_is_wrong_in_the_picture(name: str) -> None:
    edits, place, said = WRONG[name]
    sound, wrong = view_of(), view_of(**edits)
    assert sound.wrong == ()
    assert any(one.place == place and said in one.wrong for one in wrong.named)
    red = 'fill="#9b2423"'
    assert red not in haul_drawing(sound, "one")
    assert red in haul_drawing(wrong, "one")
    assert haul_drawing(wrong, "one") != haul_drawing(sound, "one")


def test_a_rope_tied_to_the_wrong_block_is_drawn_with_both_ends() -> None:
    drawing = haul_drawing(view_of(rope__dead_end__on="fixed_block"), "one")
    end = 'stroke="#9b2423" stroke-width="2.5"'
    assert drawing.count(end) == 2  # a cross where the strands end
    assert f'<circle cx="{PAGE.fixed:.1f}"' in drawing  # and a ring where the file ties it


def test_it_is_drawn_before_any_force_is_known() -> None:
    data = haul_data()
    del data["plan"]["standing_tension"]
    view = haul_of(loads_of(data))
    assert view is not None
    assert view.standing_tension_kn is None
    assert all(one.hauled_kn is None for one in view.strands)
    assert len(runs(haul_drawing(view, "one"))) == 5 + 2


def test_nothing_is_drawn_of_a_haul_of_unknown_strands() -> None:
    assert haul_of(loads_of(haul_data(strands=None))) is None


# The build


def test_the_build_goes_in_order_and_each_picture_adds_to_the_one_before() -> None:
    view = view_of()
    assert [step.title for step in view.steps] == ["Reeve", "Brake", "Tie back", "Haul", "Hold", "Undo"]
    seen: set[str] = set()
    for step in view.steps:
        assert set(step.new) <= set(step.shows)
        seen |= set(step.shows)
    assert seen == {one.place for one in view.named}
    page = build_html(view, "build")
    assert page.count("<svg") == len(view.steps)
    drawn = [len(runs(one)) for one in page.split("<li>")[1:]]
    assert drawn == [5, 5, 5, 7, 6, 6]  # the multiplier's two runs come on and go off again


@pytest.mark.parametrize("lowering", ["brake", "haul_back"])
def test_it_ends_with_a_hand_on_the_rope_before_the_stopper_is_untied(lowering: str) -> None:
    data = haul_data()
    data["plan"]["lowering"] = lowering
    view = haul_of(loads_of(data))
    assert view is not None
    said = unescape(" ".join(view.steps[-1].words))
    places = [said.index(words) for words in ("Hand on the rope", "Untie the stopper", "let the rope run")]
    assert places == sorted(places)


def test_a_plan_that_cuts_a_loaded_line_is_not_drawn_as_a_step() -> None:
    data = haul_data()
    data["plan"]["lowering"] = "cut"
    view = haul_of(loads_of(data))
    assert view is not None
    assert "Don't" in " ".join(view.steps[-1].words)


def test_a_pulley_system_that_comes_off_hands_the_line_to_its_own_parts() -> None:
    view = view_of(stays=False, made_fast=[{"part": "shackle", "gear": "SH-2"}])
    step = next(one for one in view.steps if one.title == "Make fast")
    assert "SH-2" in " ".join(step.words)
    assert not any("stopper" in " ".join(one.words) for one in view.steps)
