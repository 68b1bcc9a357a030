"""The page says what the rulebook does today, and no sound rig is stopped."""

from tests.faults.matrix import PAGE, false_alarms, page


def test_no_sound_rig_is_stopped() -> None:
    assert false_alarms() == []


def test_page_is_written_from_the_faults() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "python -m tests.faults writes it anew"
