"""The stretch curve of the webbing reaches as far as the forces that are computed with it."""

from collections.abc import Iterator

from riglint.rulekit import (
    OWN,
    REMOVE,
    Case,
    Fault,
    Input,
    Limit,
    Placed,
    Signal,
    State,
    everywhere,
    faulty,
    in_kn,
    need,
    open_,
    rounded,
    rule,
    sound,
)

NEAR = Limit(
    name="past_the_curve",
    text="1.25",
    dimension=None,
    tighter="lower",
    because=(
        "A little past its last point a curve goes on much as before. Its figures are no "
        "more exact than that."
    ),
    source=OWN,
)
FAR = Limit(
    name="far_past_the_curve",
    text="2",
    dimension=None,
    tighter="lower",
    because="Fibres stiffen under load. At twice the last point the line may be twice as stiff as we calculate.",
    source=OWN,
)
CURVE = "shelf[0].items.W-1.stretch"
IN_USE = "shelf[0].items.W-1.stretch_in_use"
BACKUP, BACKUP_3 = "shelf[0].items.W-2", {"3 kN": "1.9 %"}


def _one_point(force: str, strain: str) -> dict[str, object]:
    """Describe the webbing by one point of its curve."""
    return {CURVE: {force: strain}, IN_USE: {force: strain}}


@rule(
    title="Forces are past the end of a stretch curve",
    each=everywhere("webbing", "rope"),
    signal=Signal.CAUTION,
    worst=Signal.DANGER,
    why=(
        "Past its last point a curve is a guess. Webbing stiffens there, so the real peak is "
        "higher than we calculate."
    ),
    formula="greatest tension in any state ÷ tension of the curve's last point ≤ limit",
    limits=(NEAR, FAR),
    prevents=("pulled_past_its_ratio",),
    examples=(
        sound("low"),
        sound("long_haul"),
        sound("highline"),
        sound("low", _one_point("6.2 kN", "2.79 %")),
        faulty("low", _one_point("6 kN", "2.7 %"), at=CURVE, signal=Signal.CAUTION),
        faulty("low", _one_point("1 kN", "0.7 %"), at=CURVE, signal=Signal.CAUTION),
        faulty("long_haul", _one_point("4 kN", "1.8 %"), at=CURVE, signal=Signal.CAUTION),
        faulty("long_haul", _one_point("3.9 kN", "1.76 %"), at=CURVE, signal=Signal.WARNING),
        faulty("highline", _one_point("3 kN", "1.5 %"), at=CURVE, signal=Signal.DANGER),
        faulty(
            "highline",
            {f"{BACKUP}.stretch": BACKUP_3, f"{BACKUP}.stretch_in_use": BACKUP_3},
            signal=Signal.DANGER,
        ),
        open_("low", {CURVE: REMOVE}, at=CURVE),
        open_("low", {"chain[5].gear": REMOVE}, at="chain[5].gear"),
        open_("highline", {"backups[0].extra": REMOVE}, at="backups[0].extra"),
    ),
)
def past_curve(case: Case, placed: Placed) -> Iterator[Fault]:
    item = need(placed.item, case.on_part(placed, "gear"))
    at = case.on_item(item, "stretch", part=placed.id)
    curve = need(item.gear.stretch, at)
    # Peaks run on the curve of used webbing where there is one: stiffer, it gives the greater force.
    last_n = max(force for force, _ in item.gear.stretch_in_use or curve)
    state = max(_states(case, placed), key=lambda one: one.tension_n, default=None)
    if state is None or state.tension_n <= case.limit(NEAR) * last_n:
        return
    times = state.tension_n / last_n
    graver = {"fall": Signal.WARNING, "life": Signal.DANGER}.get(case.consequence, Signal.CAUTION)
    yield Fault(
        at,
        f"The stretch of {item.id} is listed up to {in_kn(last_n)}. "
        f"{state.kind.plain.capitalize()} the line reaches {in_kn(state.tension_n)}, "
        f"{rounded(times)} × that, or more.",
        f"Ask the maker for the stretch at {in_kn(1.5 * state.tension_n, 'up')} or more, and add "
        "it to the curve.",
        value=times,
        limit=case.limit(NEAR),
        unit="1",
        inputs=(
            Input("greatest tension", "T", state.tension_n / 1e3, "kN"),
            Input("last point of the curve", "T_last", last_n / 1e3, "kN", at.reference),
        ),
        state=state.name,
        signal=graver if times > case.limit(FAR) else Signal.CAUTION,
    )


def _states(case: Case, placed: Placed) -> list[State]:
    """Return the states of the line that a piece belongs to."""
    if placed.key[0] == "chain":
        return case.loads.peaks()
    return [
        case.loads.catch(one).state for one in case.loads.backups if one.is_line and placed in one.path.parts
    ]
