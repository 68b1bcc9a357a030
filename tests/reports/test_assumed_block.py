"""What is assumed stands in every report: in text, HTML, JSON and Markdown of the audit, on sheet, card and page."""

import json
from pathlib import Path

import pytest

from tests.cli.calling import DAY, run

COMPACT = Path(__file__).parents[2] / "examples/compact"
RIG = "park-line.yaml"
TITLE = "Assumed, since the file does not say"
STRETCH = "stretch of P-15"


def printed(*arguments: str) -> str:
    status, out, err = run(COMPACT, *arguments, *DAY)
    assert (status, err) == (0, "")
    return " ".join(out.split())


@pytest.mark.parametrize(
    ("command", "form"),
    [
        ("audit", "text"),
        ("audit", "html"),
        ("audit", "markdown"),
        ("sheet", "text"),
        ("sheet", "html"),
        ("sheet", "markdown"),
        ("card", "text"),
        ("card", "html"),
    ],
)
def test_every_document_names_each_value_and_what_it_rests_on(command: str, form: str) -> None:
    out = printed(command, RIG, "--format", form)
    assert TITLE in out or (command, form) == ("audit", "markdown")
    for name in (STRETCH, "mass of P-15", "hitch of PS-1 and PS-2"):
        assert name in out
    assert "0.9 to 7.8 % at 5 kN" in out
    assert "polyester and a breaking strength of 40 kN" in out


@pytest.mark.parametrize("command", ["sheet", "card"])
def test_sheet_and_card_tell_between_what_their_figures_lie(command: str) -> None:
    out = printed(command, RIG)
    assert "greatest peak tension" in out
    assert "Figures here are computed with 0.9 % at 5 kN, 300 g/m, choke." in out


def test_json_has_place_source_and_what_is_decided() -> None:
    (file,) = (
        one for one in json.loads(printed("audit", RIG, "--format", "json"))["files"] if one["assumed"]
    )
    (one,) = (one for one in file["assumed"] if one["name"] == STRETCH)
    assert one["at"]["path"].endswith("gear.yaml")
    assert one["at"]["key"] == "items.P-15.stretch"
    assert one["decides"] == []
    assert one["source"]["mark"] == "own"
    for command in ("sheet", "card"):
        told = json.loads(printed(command, RIG, "--format", "json"))["assumed"]
        assert STRETCH in [row["name"] for row in told]


def test_a_verdict_that_hangs_on_it_is_named_in_the_block() -> None:
    _, out, _ = run(COMPACT, "audit", RIG, *DAY, "--set", "plan.standing_tension=1.5 kN")
    text = " ".join(out.split())
    assert "It decides ground/clearance" in text
    assert "which is only assumed" in text
    assert "ask the maker of P-15 for its stretch" in text
    assert text.index("- stretch of P-15") < text.index("- mass of P-15")  # what decides comes first
    assert text.count("verdicts: none here depends on the others.") == 1


def test_what_decides_nothing_is_told_once_for_all() -> None:
    assert printed("audit", RIG).count("verdicts: none here depends on these.") == 1
