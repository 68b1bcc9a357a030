"""What a tie-back must be like, whatever it stands behind: a haul of blocks and rope, or a puller."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.loadpath import Placed
from riglint.loads.inputs import need, need_all
from riglint.loads.what_if.adjustable import one_value
from riglint.model.vocabulary.words import in_prose
from riglint.rulekit.case import Case
from riglint.rulekit.verdicts import Fault, Limit, Signal


def on_webbing_side(case: Case, placed: Placed) -> str:
    """Return the part next to this one on its webbing side, in words."""
    n = case.path.parts.index(placed)
    beside = case.path.parts[n + 1 : n + 2] if case.path.side(placed) == "a" else case.path.parts[:n][-1:]
    if not beside:
        return "the webbing"
    words, name = beside[0].words, beside[0].id
    return words if name in words else f"{words} ({name})"


def loose_or_askew(case: Case, placed: Placed, most_slack: Limit) -> Iterator[Fault]:
    """Say what is wrong with how the tie-back of a part is laid: its slack, what it holds, where it goes.

    Raises:
        MissingInput: the file leaves one of these out, or names no spot.
    """
    tie = placed.part.tie_back
    if tie is None:
        return
    yield from _slack(case, placed, case.limit(most_slack))
    yield from _held(case, placed)
    yield from _goes_to(case, placed)
    keys = ("slack", "from_", "to")
    need_all(*((getattr(tie, key), case.on_part(placed, "tie_back", key.strip("_"))) for key in keys))


def own_sling(case: Case, placed: Placed) -> Fault:
    """Ask for a look at the sling of a tie-back that names none."""
    what = in_prose(placed.part.part)
    return Fault(
        case.on_part(placed, "tie_back", "sling"),
        "The file names no sling for the tie-back alone.",
        f"Check that the tie-back doesn't hang on the {what}'s own sling. If it has a sling of "
        "its own, name it.",
        kind="review",
        signal=Signal.CAUTION,
    )


def _slack(case: Case, placed: Placed, most: float) -> Iterator[Fault]:
    tie = placed.part.tie_back
    if tie is None or tie.slack is None or tie.slack.si <= most:
        return
    at = case.on_part(placed, "tie_back", "slack")
    remedies = case.put_right(at, one_value(at.key, "take the tie-back in to {} of slack", "down", "m", 0.05))
    yield Fault(
        at,
        f"The line runs {tie.slack.text} before the tie-back catches it. At most {most:g} m.",
        f"Take the tie-back in to at most {most:g} m of slack once the line is tensioned.",
        value=tie.slack.si,
        limit=most,
        unit="m",
        inputs=(case.given("slack", "s", tie.slack, at),),
        remedies=remedies,
    )


def _held(case: Case, placed: Placed) -> Iterator[Fault]:
    tie, path, what = placed.part.tie_back, case.path, in_prose(placed.part.part)
    n = path.parts.index(placed)
    webbing_side = path.parts[n + 1 :] if path.side(placed) == "a" else path.parts[:n]
    near = [one for one in webbing_side if path.side(one) == path.side(placed) or one.part.part == "webbing"]
    if tie is not None and tie.from_ is not None and tie.from_ not in _names(case, near):
        lies = f"isn't between the {what} and its end of the webbing"
        # What lies inside a spread of legs or the haul is a part, too.
        known = tie.from_.split(".")[0] in _names(case, path.parts) or tie.from_ in case.items
        yield Fault(
            case.on_part(placed, "tie_back", "from"),
            f"The tie-back holds {tie.from_}, which {lies if known else 'is not in this chain'}.",
            f"Tie it to {on_webbing_side(case, placed)}, so that it bypasses the whole {what}.",
            value=tie.from_,
        )


def _names(case: Case, parts: Iterable[Placed]) -> set[str]:
    """Return what parts may be called: by id, by place, by shelf name."""
    return {name for one in parts for name in (one.id, case.on_part(one).key_text, one.part.gear) if name}


def _goes_to(case: Case, placed: Placed) -> Iterator[Fault]:
    tie, path, what = placed.part.tie_back, case.path, in_prose(placed.part.part)
    home, far = path.anchors if path.side(placed) == "a" else reversed(path.anchors)
    anchors = need(case.spot, case.at("spot")).anchors
    points = (anchors[home.part.at].points or {}) if home.part.at in anchors else {}
    if (
        tie is not None
        and tie.to is not None
        and (tie.to == far.part.at or tie.to not in {*anchors, *points})
    ):
        yield Fault(
            case.on_part(placed, "tie_back", "to"),
            f"The tie-back goes to '{tie.to}'. The {what} doesn't end at that anchor.",
            f"Take it to '{home.part.at}', or to another anchor of the spot behind the {what}.",
            value=tie.to,
            limit=home.part.at,
        )
