"""The sheet's drawings, by hand as SVG: literal colours, a word beside each, readable in grey."""

from __future__ import annotations

from collections.abc import Sequence

from riglint.reports.drawing.svg import (
    BLUE,
    BOTTOM,
    GREY,
    INK,
    LEFT,
    NARROW,
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
from riglint.views.drawing.bars import Bar
from riglint.views.drawing.curves import Least, Profile, Tensions
from riglint.views.drawing.smooth import smooth
from riglint.views.figures import fixed
from riglint.views.sheet.content import Sheet

IN_SHORT = "Solid: nobody on it. Dashes: a walker's feet. Dots: peaks and falls."
TALLEST, FLATTEST = 420.0, 120.0
CLOSE = 24.0  # room at the right of a narrow drawing
TIMES = (1, 2, 5, 10, 20)
ON_A_PHONE = (
    0.1,
    0.2,
    0.5,
    *TIMES,
)  # there a deep gully is drawn flatter, so that what comes below stays in view
# Of each way that a state may be shown: colour, dashes, stroke.
LOOKS = {"rest": (BLUE, "8 4", 2.2), "peak": (RED, "2 4", 1.5), "fall": (GREY, "2 4", 1.5)}


def drawings(sheet: Sheet) -> list[str]:
    """Return every drawing of a sheet that can be made."""
    return [
        *([profile_drawing(sheet.profile)] if sheet.profile else []),
        *([tension_drawing(sheet.tensions)] if sheet.tensions else []),
        *([bars_drawing(sheet.bars)] if sheet.bars else []),
    ]


# The profile


def profile_drawing(
    profile: Profile, name: str = "profile", width: float = WIDTH, *, brief: bool = False
) -> str:
    """Return the line over the ground: standing, and the lowest that the heaviest walker brings it.

    Args:
        profile: the line and what people do to it.
        name: of the drawing, once a page.
        width: of the drawing, in units of its letters' height over 12.
        brief: whether only a short legend stands below it; the page then says the rest elsewhere.
    """
    frame, times = _to_scale(width, profile)
    marks = axes(frame, "m from A, level", "m over the ground at A", max(3, int(frame.height // 40)))
    marks += _ground(frame, profile)
    for curve in reversed(profile.under):
        colour, dash, stroke = LOOKS[curve.shown]
        marks.append(line(frame.path(smooth(curve.points)), colour, stroke, dash))
    marks += _backups(frame, profile)
    marks.append(line(frame.path(profile.still), INK, 2.2))
    marks += _ends(frame, profile.still)
    marks += _least(frame, profile.least) if profile.least else []
    told = IN_SHORT if brief else profile_told(profile, times)
    height = frame.height + TOP + BOTTOM
    return figure(name, "Profile", told, marks, height=height, caption=told, width=width)


def profile_told(profile: Profile, times: float | None = None) -> str:
    """Return what the drawing shows, in words; `times` is how much taller than long it is drawn."""
    times = _to_scale(NARROW, profile)[1] if times is None else times
    scale = f"heights drawn {times:g} times as large as lengths"
    if times <= 1:
        scale = (
            f"lengths drawn {1 / times:g} times as large as heights"
            if times < 1
            else "lengths and heights to one scale"
        )
    least = ", ".join(f"{words} {_clear(clearance_m)}" for words, clearance_m in profile.clearances)
    told = f" Least height over the ground: {least}." if least else ""
    words = (
        "not drawn: the spot does not give the ground" if profile.ground is None else "shaded below its line"
    )
    return (
        f"To scale, {scale}. Solid: nobody on the line. Dashes: where the foot comes under somebody at rest, place by "
        f"place. Dots: peaks and falls in free air.{_told_beside(profile)} Ground {words}.{told}"
    )


def _backups(frame: Frame, profile: Profile) -> list[str]:
    """Return the backups as they hang and where they catch, and the leash with somebody on it."""
    marks = []
    for one in profile.backups:
        marks.append(line(frame.path(one.hanging), GREY, 1.4))
        if one.caught:
            marks.append(line(frame.path(smooth(one.caught)), RED, 1.8, "9 3 2 3"))
    if profile.leash is not None:
        leash = profile.leash
        x, y = frame.at(leash.x_m, leash.ring_m)
        _, low = frame.at(leash.x_m, leash.ring_m - leash.length_m)
        marks.append(line(f"{x:.1f},{y:.1f} {x:.1f},{low:.1f}", INK, 1.5))
        marks.append(f'<circle cx="{x:.1f}" cy="{low:.1f}" r="3" fill="{INK}"/>')
    return marks


def _told_beside(profile: Profile) -> str:
    """Return what the marks of backup and leash mean, where they are drawn."""
    told = ""
    if profile.backups:
        told += " Thin and grey: the backup."
    if any(one.caught for one in profile.backups):
        told += " Dashes and dots in red: how low the backup catches when the main line goes."
    if profile.leash is not None:
        told += " Upright with a dot: somebody on the leash."
    return told


def _clear(clearance_m: float) -> str:
    """Return a height over the ground; below it, how far people would be in the ground."""
    return f"{fixed(clearance_m)} m" if clearance_m >= 0 else f"none ({fixed(-clearance_m)} m below it)"


def _ground(frame: Frame, profile: Profile) -> list[str]:
    if profile.ground is None:
        return []
    floor = [(0.0, frame.y0), *profile.ground, (profile.span_m, frame.y0)]
    return [
        f'<polygon points="{frame.path(floor)}" fill="{SOIL}" stroke="none"/>',
        line(frame.path(profile.ground), INK, 2),
    ]


def _to_scale(paper: float, profile: Profile) -> tuple[Frame, float]:
    span, low, high = profile.span_m, profile.lowest_m, profile.highest_m
    room = max(high - low, 0.5) * 0.06
    low, high = low - room, high + room
    width = paper - LEFT - (RIGHT if paper >= WIDTH else CLOSE)
    flat = (high - low) * width / span
    each = ON_A_PHONE if paper <= NARROW else TIMES
    times = next((one for one in each if flat * one >= FLATTEST), each[-1])
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


def _least(frame: Frame, least: Least) -> list[str]:
    """Return the least clearance under the walker."""
    x, y = frame.at(least.x_m, least.foot_m)
    _, below = frame.at(least.x_m, least.foot_m - least.clearance_m)
    arrow = f"{x:.1f},{y:.1f} {x:.1f},{below:.1f}"
    return [
        line(arrow, BLUE, 1.5),
        line(f"{x - 4:.1f},{y:.1f} {x + 4:.1f},{y:.1f}", BLUE, 1.5),
        line(f"{x - 4:.1f},{below:.1f} {x + 4:.1f},{below:.1f}", BLUE, 1.5),
        text(x + 8, (y + below) / 2 + 4, f"{fixed(least.clearance_m)} m", colour=BLUE, bold=True),
    ]


# Tension against place


def tension_drawing(tensions: Tensions) -> str:
    """Return the greatest tension against the user's place."""
    level = tensions.standing_kn
    frame = Frame(0.0, tensions.span_m, 0.0, tensions.greatest_kn * 1.08, WIDTH - LEFT - RIGHT, 230.0)
    marks = axes(frame, "where the user is, m from A", "kN, greatest tension anywhere", 6)
    marks.append(line(frame.path([(frame.x0, level), (frame.x1, level)]), INK, 1.2))
    names, wanted, colours = ["standing"], [frame.at(frame.x1, level)[1]], [INK]
    for curve in tensions.curves:
        colour, dash, _ = LOOKS[curve.shown]
        marks.append(line(frame.path(curve.points), colour, 2.2, dash))
        if len(curve.points) <= 12:  # noqa: PLR2004 - few enough to show where it was computed
            marks += [
                f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>'
                for x, y in (frame.at(*point) for point in curve.points)
            ]
        names.append(curve.words)
        wanted.append(frame.at(*curve.points[-1])[1])
        colours.append(colour)
    for name, y, colour in zip(names, spread(wanted), colours, strict=True):
        marks.append(text(LEFT + frame.width + 8, y + 4, name, colour=colour, bold=True))
    told = "; ".join(f"{words}: at most {most:.2f} kN" for words, most in tensions.at_most)
    caption = f"Standing {level:.2f} kN; {told}. Dots stand where a peak was computed."
    title = "Tension against the user's place"
    return figure("tension", title, caption, marks, height=frame.height + TOP + BOTTOM, caption=caption)


# Force against strength

ROW, BARS, ROOM = 30.0, 350.0, 24.0
LONGEST = 40  # letters beside a bar; the tables give the whole name


def bars_drawing(bars: Sequence[Bar]) -> str:
    """Return the force on each part against its strength, with the force that the asked ratio allows for."""
    most = 1.6 * max(one.force_kn * (one.asked or 1.0) for one in bars)
    scale = (WIDTH - BARS - ROOM) / most
    marks = [text(BARS, 14, "kN", colour=GREY)]
    bottom = TOP + ROW * len(bars)
    for value in ticks(0.0, most, 6):
        x = BARS + value * scale
        marks.append(line(f"{x:.1f},{TOP:.1f} {x:.1f},{bottom:.1f}", PALE, 0.7))
        marks.append(text(x, bottom + 16, f"{value:g}", anchor="middle"))
    told = []
    for n, one in enumerate(bars):
        marks += _bar(TOP + n * ROW, scale, most, one)
        asked = one.asked if one.asked is not None else "none"
        told.append(f"{one.id} {one.words}: {one.ratio:.2f}, asked {asked}")
    caption = (
        "Filled: force in the governing state. Outline: strength in place, open to the right where it runs off "
        "the drawing. Upright stroke: force times the ratio asked, which the outline must reach. "
        "In front: ratio / asked."
    )
    return figure(
        "bars", "Force against strength", "; ".join(told), marks, height=bottom + 26, caption=caption
    )


def _bar(y: float, scale: float, most: float, bar: Bar) -> list[str]:
    force, strength, ratio, asked, short = bar.force_kn, bar.strength_kn, bar.ratio, bar.asked, bar.short
    end = BARS + min(strength, most) * scale
    top, low = y + 6, y + 22
    outline = f"{end:.1f},{top:.1f} {BARS:.1f},{top:.1f} {BARS:.1f},{low:.1f} {end:.1f},{low:.1f}"
    closed = "" if strength > most else f" {end:.1f},{top:.1f}"
    place = f'x="{BARS:.1f}" y="{top + 3:.1f}" width="{min(force, most) * scale:.1f}" height="{low - top - 6:.1f}"'
    marks = [
        text(0, y + 13, bar.id[:LONGEST], bold=True),
        text(0, y + 26, bar.words[:LONGEST], colour=GREY),
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
