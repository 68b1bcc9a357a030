"""The profile of a highline: backup, catch and leash stand on it, at the heights that were computed."""

import re

import pytest

from riglint.reports.drawing.drawings import IN_SHORT, profile_drawing, profile_told
from riglint.reports.drawing.svg import NARROW
from riglint.views.drawing.curves import Profile, profile_of
from tests.rigs import loads_of, rig_data


@pytest.fixture(scope="module")
def highline() -> Profile:
    profile = profile_of(loads_of(rig_data("highline")))
    assert profile is not None
    return profile


def test_a_highline_shows_its_backup_and_how_low_it_catches(highline: Profile) -> None:
    loads = loads_of(rig_data("highline"))
    (backup,) = highline.backups
    caught = loads.catch(loads.backups[0]).state.soft_positions
    start = backup.hanging[0][1]
    assert min(y for _, y in backup.caught) == pytest.approx(start + min(rest.load_y_m for rest in caught))
    assert min(y for _, y in backup.caught) < min(y for _, y in backup.hanging)
    assert highline.lowest_m <= min(y for _, y in backup.caught)
    assert "the backup" in profile_told(highline)


def test_a_highline_shows_its_leash_as_long_as_it_hangs(highline: Profile) -> None:
    hang, _ = loads_of(rig_data("highline")).leash_reach()
    assert highline.leash is not None
    assert highline.leash.length_m == hang
    assert "leash" in profile_told(highline)
    assert 'stroke-dasharray="9 3 2 3"' in profile_drawing(highline)


def test_a_low_line_has_neither() -> None:
    profile = profile_of(loads_of(rig_data("low")))
    assert profile is not None
    assert profile.backups == ()
    assert profile.leash is None
    assert "leash" not in profile_told(profile)


def test_on_a_phone_it_stays_low_enough_for_what_follows(highline: Profile) -> None:
    drawing = profile_drawing(highline, "one", NARROW, brief=True)
    box = re.search(r'viewBox="0 0 (\d+) (\d+)"', drawing)
    assert box is not None
    assert int(box[2]) < int(box[1])
    assert IN_SHORT.split(".", maxsplit=1)[0] in drawing
