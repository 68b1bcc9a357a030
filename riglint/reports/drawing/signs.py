"""Signal words as signs: the colours and the alert triangle of the standards, the word always beside them."""

from __future__ import annotations

from riglint.findings import Finding
from riglint.reports.drawing.svg import INK, text
from riglint.rulekit import Signal

BLACK, WHITE = "#000000", "#ffffff"
# Near the safety colours of ISO 3864-4 and ANSI Z535.1, as far as a screen shows them; values from memory.
RED, ORANGE, YELLOW, BLUE = "#9b2423", "#f08024", "#ffd100", "#005387"
# Ground and ink of each panel.
COLOURS: dict[Signal, tuple[str, str]] = {
    Signal.DANGER: (RED, WHITE),
    Signal.WARNING: (ORANGE, BLACK),
    Signal.CAUTION: (YELLOW, BLACK),
    Signal.NOTICE: (BLUE, WHITE),
}
# The safety alert symbol stands before every word but NOTICE, which means no injury (ANSI Z535.4).
TRIANGLE = "M10 0 20 18H0Z M8.9 6 9.4 12h1.2L11.1 6Z M9 13.3h2v2H9Z"
SYMBOL = (
    '<svg class="store" aria-hidden="true" width="0" height="0"><symbol id="alert" viewBox="0 0 20 18">'
    f'<path fill="currentColor" fill-rule="evenodd" d="{TRIANGLE}"/></symbol></svg>'
)
LETTER, HIGH = 8.3, 17.0  # width of a bold capital, height of a panel on a drawing


def sign_html(signal: Signal, kind: str = "fail", *, beside: bool = True) -> str:
    """Return a signal word as a panel; what a person must look at is outlined.

    Args:
        signal: the word.
        kind: of the finding.
        beside: whether to say the kind beside the panel, where it is no plain fail.
    """
    alert = "" if signal == Signal.NOTICE else '<svg aria-hidden="true"><use href="#alert"/></svg>'
    look = " look" if kind == "review" else ""
    said = f" <b>{kind}</b>" if beside and kind != "fail" else ""
    return f'<span class="sign {signal.name.lower()}{look}">{alert}{signal.name}</span>{said}'


def sign_svg(right: float, top: float, finding: Finding) -> list[str]:
    """Return the same panel on a drawing, ending at a place on its right."""
    signal = finding.signal
    ground, ink = COLOURS[signal]
    look = finding.kind == "review"
    alert = 0.0 if signal == Signal.NOTICE else 17.0
    width = 10.0 + alert + LETTER * len(signal.name)
    left = right - width
    fill, ink = (WHITE, INK) if look else (ground, ink)
    dashes = ' stroke-dasharray="3 2"' if look else ""
    place = f'x="{left:.1f}" y="{top:.1f}" width="{width:.1f}" height="{HIGH}" rx="2"'
    marks = [f'<rect {place} fill="{fill}" stroke="{INK}" stroke-width="1.2"{dashes}/>']
    if alert:
        place = f"translate({left + 5:.1f} {top + 2.8:.1f}) scale(.65)"
        marks.append(f'<path transform="{place}" fill="{ink}" fill-rule="evenodd" d="{TRIANGLE}"/>')
    word = text(left + 5 + alert, top + 12.8, signal.name, colour=ink, bold=True, halo=False)
    return [*marks, word]


def coloured(selector: str, edge: str) -> str:
    """Return style rules for the panel of every signal word, and for the `edge` of what it stands on."""
    rows = ""
    for signal in Signal:
        name = signal.name.lower()
        ground, ink = COLOURS[signal]
        rows += f".sign.{name} {{ background: {ground}; color: {ink}; }}\n"
        rows += f"{selector}.{name} {{ {edge}: {ground}; }}\n"
    return rows
