"""A word of the trade that is none of the format is answered with the word of the format."""

from pathlib import Path
from typing import get_args

import pytest

from riglint.cli import main
from riglint.model.vocabulary import words
from riglint.model.vocabulary.words import SYNONYMS, our_word

HERE = Path(__file__).parent
RIG = (HERE / "value_unknown_kind.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("written", "ours"),
    [("ratchet", "puller"), ("carabiner", "connector"), ("Pulley system", "haul"), ("sewn loop", "sewn_end")],
)
def test_a_part_by_its_trade_word(
    written: str, ours: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "rig-library").touch()
    rig = tmp_path / "rig.yaml"
    rig.write_text(RIG.replace("part: shakle", f"part: {written}"), encoding="utf-8")
    main(["audit", str(rig), "--on", "2026-05-02"])
    assert f"Write {ours}. That is the word here for {written}." in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    ("written", "closed", "ours"),
    [
        ("static", words.RopeType, "low_stretch"),
        ("rodeo line", words.Use, "slackrope"),
        ("nylon", words.Material, "polyamide"),
    ],
)
def test_a_value_by_its_trade_word(written: str, closed: object, ours: str) -> None:
    assert our_word(written, get_args(closed)) == ours


def test_no_word_of_a_place_is_taken_for_another() -> None:
    assert our_word("static", get_args(words.Use)) is None
    kinds = {*get_args(words.PartKind), *get_args(words.GearKind)}
    assert [one for one in SYNONYMS if our_word(one, kinds) == one] == []
