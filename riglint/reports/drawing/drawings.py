"""The sheet's drawings, by hand as SVG: literal colours, a word beside each, readable in grey."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.loads import Loads, State
from riglint.loads.inputs import known
from riglint.loads.path.ground import elevation
from riglint.mechanics.span.line import profile
from riglint.reports.drawing.svg import (
    BLUE,
    BOTTOM,
    GREY,
    INK,
    LEFT,
    PALE,
    RED,
    RIGHT,
    SOIL,
    TOP,
    WIDTH,
    Frame,
    Point,
    axes,
    figure,
    line,
    spread,
    text,
    ticks,
)
from riglint.reports.sheet.content import fixed
from riglint.reports.sheet.parts import states_for, worst_of

TALLEST, FLATTEST = 420.0, 120.0
CLOSE = 24.0  # room at the right of a narrow drawing
TIMES = (1, 2, 5, 10, 20)
# Of each way that a state may be shown: colour, dashes, stroke.
LOOKS = {"rest": (BLUE, "8 4", 2.2), "peak": (RED, "2 4", 1.5), "fall": (GREY, "2 4", 1.5)}


def drawings(loads: Loads) -> list[str]:
    """Return every drawing that can be made."""
    made = [known(lambda draw=draw: draw(loads)) for draw in (profile_drawing, tension_drawing, bars_drawing)]  # type: ignore[misc]
    return [one for one in made if one]


# The profile


def profile_drawing(loads: Loads, name: str = "profile", width: float = WIDTH) -> str:
    """Return the line over the ground: standing, and the lowest that the heaviest walker brings it.

    Args:
        loads: the rig.
        name: of the drawing, once a page.
        width: of the drawing, in units of its letters' height over 12.
    """
    standing = loads.standing
    states = [state for state in loads.people() if state.kind.shown is not None]
    resting = [state for state in states if state.kind.shown == "rest"]
    lowest = max(resting, key=lambda state: max(rest.sag_m for rest in state.soft_positions))
    height_a = known(lambda: loads.geometry.height_m(0)) or 0.0
    still = [(x, y + height_a) for x, y in profile(standing.line, standing.equilibrium, 40)]
    ground = known(loads.geometry.ground)
    under = [(state, _under(state, still, height_a)) for state in states]
    heights = [y for _, y in [*still, *(point for _, curve in under for point in curve), *(ground or ())]]
    span = standing.line.span_m
    frame, times = _to_scale(width, span, min(heights), max(heights))
    marks = axes(frame, "m from A, level", "m over the ground at A", max(3, int(frame.height // 40)))
    if ground is not None:
        shown = [(x, y) for x, y in [*ground, (span, elevation(ground, span))] if 0.0 <= x <= span]
        floor_y = frame.y0
        marks.append(
            f'<polygon points="{frame.path([(0.0, floor_y), *shown, (span, floor_y)])}" fill="{SOIL}" stroke="none"/>'
        )
        marks.append(line(frame.path(shown), INK, 2))
    for state, curve in reversed(under):
        colour, dash, stroke = LOOKS[state.kind.shown or "rest"]
        marks.append(line(frame.path(curve), colour, stroke, dash))
    marks.append(line(frame.path(still), INK, 2.2))
    marks += _ends(frame, still)
    marks += _least(frame, lowest, height_a)
    scale = (
        "lengths and heights to one scale"
        if times == 1
        else f"heights drawn {times} times as large as lengths"
    )
    told = "; ".join(
        f"{state.kind.words}: least {fixed(state.least_clearance_m)} m over the ground"
        for state in (loads.standing_state, *states)
        if state.least_clearance_m is not None
    )
    words = "not drawn: the spot does not give the ground" if ground is None else "shaded below its line"
    caption = (
        f"To scale, {scale}. Solid: nobody on the line. Dashes: where the foot comes under somebody at rest, place by "
        f"place. Dots: peaks and falls in free air. Ground {words}. {told}."
    )
    height = frame.height + TOP + BOTTOM
    return figure(name, "Profile", caption, marks, height=height, caption=caption, width=width)


def _under(state: State, still: Sequence[Point], height_a: float) -> list[Point]:
    loaded = sorted((rest.load_x_m, rest.load_y_m + height_a) for rest in state.soft_positions)
    return [still[0], *loaded, still[-1]]


def _to_scale(paper: float, span: float, low: float, high: float) -> tuple[Frame, int]:
    room = max(high - low, 0.5) * 0.06
    low, high = low - room, high + room
    width = paper - LEFT - (RIGHT if paper >= WIDTH else CLOSE)
    flat = (high - low) * width / span
    times = next((one for one in TIMES if flat * one >= FLATTEST), TIMES[-1])
    height = flat * times
    if height > TALLEST:
        width, height = width * TALLEST / height, TALLEST
    return Frame(0.0, span, low, high, width, height), times


def _ends(frame: Frame, still: Sequence[Point]) -> list[str]:
    marks = []
    for name, point in (("A", still[0]), ("B", still[-1])):
        x, y = frame.at(*point)
        marks.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{INK}"/>')
        marks.append(text(x + (8 if name == "B" else 6), y - 7, name, bold=True))
    return marks


def _least(frame: Frame, walker: State, height_a: float) -> list[str]:
    """Return the least clearance under the walker, where the spot gives the ground."""
    if walker.least_clearance_m is None:
        return []
    rest = min(walker.soft_positions, key=lambda one: abs(one.fraction - (walker.least_clearance_at or 0.5)))
    foot = rest.load_y_m + height_a
    x, y = frame.at(rest.load_x_m, foot)
    _, below = frame.at(rest.load_x_m, foot - walker.least_clearance_m)
    arrow = f"{x:.1f},{y:.1f} {x:.1f},{below:.1f}"
    return [
        line(arrow, BLUE, 1.5),
        line(f"{x - 4:.1f},{y:.1f} {x + 4:.1f},{y:.1f}", BLUE, 1.5),
        line(f"{x - 4:.1f},{below:.1f} {x + 4:.1f},{below:.1f}", BLUE, 1.5),
        text(x + 8, (y + below) / 2 + 4, f"{fixed(walker.least_clearance_m)} m", colour=BLUE, bold=True),
    ]


# Tension against place


def tension_drawing(loads: Loads) -> str:
    """Return the greatest tension against the user's place."""
    shown = [state for state in loads.people() if state.kind.shown is not None]
    level = loads.standing_state.tension_n / 1000.0
    top = max(rest.tension_n for state in shown for rest in state.positions) / 1000.0
    frame = Frame(0.0, loads.standing.line.span_m, 0.0, top * 1.08, WIDTH - LEFT - RIGHT, 230.0)
    marks = axes(frame, "where the user is, m from A", "kN, greatest tension anywhere", 6)
    marks.append(line(frame.path([(frame.x0, level), (frame.x1, level)]), INK, 1.2))
    names, wanted, colours = ["standing"], [frame.at(frame.x1, level)[1]], [INK]
    for state in shown:
        colour, dash, _ = LOOKS[state.kind.shown or "rest"]
        points = sorted((rest.load_x_m, rest.tension_n / 1000.0) for rest in state.positions)
        marks.append(line(frame.path(points), colour, 2.2, dash))
        if len(points) <= 12:  # noqa: PLR2004 - few enough to show where it was computed
            marks += [
                f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>'
                for x, y in (frame.at(*point) for point in points)
            ]
        names.append(state.kind.words)
        wanted.append(frame.at(*points[-1])[1])
        colours.append(colour)
    for name, y, colour in zip(names, spread(wanted), colours, strict=True):
        marks.append(text(LEFT + frame.width + 8, y + 4, name, colour=colour, bold=True))
    told = "; ".join(f"{state.kind.words}: at most {state.tension_n / 1000.0:.2f} kN" for state in shown)
    caption = f"Standing {level:.2f} kN; {told}. Dots stand where a peak was computed."
    title = "Tension against the user's place"
    return figure("tension", title, caption, marks, height=frame.height + TOP + BOTTOM, caption=caption)


# Force against strength

ROW, BARS, ROOM = 30.0, 350.0, 24.0
LONGEST = 40  # letters beside a bar; the tables give the whole name


def bars_drawing(loads: Loads) -> str | None:
    """Return the force on each part against its strength, with the force that the asked ratio allows for."""
    rows = []
    for load in loads.parts:
        worst = worst_of(load, states_for(load, loads))
        strength = known(lambda load=load: load.strength)  # type: ignore[misc]
        if worst is not None and strength is not None:
            asked = load.required_at(loads.consequence.word)
            rows.append((load.id, load.words, worst, strength.strength_n / 1000.0, asked))
    if not rows:
        return None
    most = 1.6 * max(worst.force_n / 1000.0 * (asked or 1.0) for _, _, worst, _, asked in rows)
    scale = (WIDTH - BARS - ROOM) / most
    marks = [text(BARS, 14, "kN", colour=GREY)]
    bottom = TOP + ROW * len(rows)
    for value in ticks(0.0, most, 6):
        x = BARS + value * scale
        marks.append(line(f"{x:.1f},{TOP:.1f} {x:.1f},{bottom:.1f}", PALE, 0.7))
        marks.append(text(x, bottom + 16, f"{value:g}", anchor="middle"))
    told = []
    for n, (part, words, worst, strength, asked) in enumerate(rows):
        marks += _bar(
            TOP + n * ROW, scale, most, (part, words), (worst.force_n / 1000.0, strength, worst.ratio, asked)
        )
        told.append(f"{part} {words}: {worst.ratio:.2f}, asked {asked if asked is not None else 'none'}")
    caption = (
        "Filled: force in the governing state. Outline: strength in place, open to the right where it runs off "
        "the drawing. Upright stroke: force times the ratio asked, which the outline must reach. "
        "In front: ratio / asked."
    )
    return figure(
        "bars", "Force against strength", "; ".join(told), marks, height=bottom + 26, caption=caption
    )


def _bar(
    y: float,
    scale: float,
    most: float,
    names: tuple[str, str],
    figures: tuple[float, float, float, float | None],
) -> list[str]:
    part, words = names
    force, strength, ratio, asked = figures
    short = ratio < asked if asked is not None else True
    end = BARS + min(strength, most) * scale
    top, low = y + 6, y + 22
    outline = f"{end:.1f},{top:.1f} {BARS:.1f},{top:.1f} {BARS:.1f},{low:.1f} {end:.1f},{low:.1f}"
    closed = "" if strength > most else f" {end:.1f},{top:.1f}"
    place = f'x="{BARS:.1f}" y="{top + 3:.1f}" width="{min(force, most) * scale:.1f}" height="{low - top - 6:.1f}"'
    marks = [
        text(0, y + 13, part[:LONGEST], bold=True),
        text(0, y + 26, words[:LONGEST], colour=GREY),
        line(outline + closed, INK, 1.2),
        f'<rect {place} fill="{RED if short else BLUE}"/>',
    ]
    if asked is not None and force * asked <= most:
        x = BARS + force * asked * scale
        marks.append(line(f"{x:.1f},{top - 4:.1f} {x:.1f},{low + 4:.1f}", INK, 2.5))
    wanted = "no ratio will do" if asked is None else f"/ {asked:g}"
    told = f"{ratio:.2f} {wanted}{' short' if short and asked is not None else ''}"
    marks.append(text(BARS - 10, y + 18, told, anchor="end", colour=RED if short else INK, bold=short))
    return marks
