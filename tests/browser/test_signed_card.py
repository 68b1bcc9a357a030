"""The card in a real browser: its ticks stay, a changed rig starts anew, and what is signed goes into the rig file."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from riglint.cli import main
from tests.browser.devtools import Browser, Page, opened
from tests.browser.test_pages import AXE, PHONE
from tests.cli.calling import club_of
from tests.cli.test_tick_command import opened as open_ticks
from tests.cli.test_tick_command import said

DAY = ("--on", "2026-05-02")
FILL = "for (const [name, value] of Object.entries({})) {{ const one = document.getElementById(name); "
FILL += "one.value = value; one.dispatchEvent(new Event('input')); }} 0"
PRESS = "document.getElementById('{}').click()"
TOLD = "document.getElementById('told').textContent"
KEPT = "document.getElementById('kept').textContent"
TICK = "document.querySelectorAll('{}').forEach((one) => {{ if (!one.checked) one.click(); }})"
COUNT = "document.querySelectorAll('input[data-box]:checked').length"
RIGGER = {"role": "rigger", "initials": "ab", "day": "2026-05-02", "tension": "4,6"}
OTHER = {"role": "second person", "initials": "cd", "day": "2026-05-02", "tension": "4.6"}


@pytest.fixture
def lake(browser: Browser, tmp_path: Path) -> Path:  # noqa: ARG001 - skips first
    return (
        club_of(tmp_path, "rigs/17-lake.yaml", "shelf/long.yaml", "spots/lake-bay.yaml") / "rigs/17-lake.yaml"
    )


def card_of(rig: Path, *more: str) -> Path:
    page = rig.with_suffix(".html")
    main(["card", str(rig), *DAY, *more, "--format", "html", "--output", str(page)])
    return page


@pytest.fixture
def phone(browser: Browser, lake: Path) -> Iterator[Page]:
    with opened(browser, card_of(lake), *PHONE) as before:
        before.run("localStorage.clear()")  # what another test kept
    with opened(browser, card_of(lake), *PHONE) as page:
        yield page


def signed(page: Page, who: dict[str, str], which: str) -> str:
    page.run(FILL.format(json.dumps(who)))
    page.run(TICK.format(which))
    page.run(PRESS.format("sign"))
    return str(page.run(TOLD))


def both_signed(page: Page) -> str:
    """Return what the card exports once two people have signed."""
    signed(page, RIGGER, "input[data-names]:not([data-second])")
    assert signed(page, OTHER, "input[data-second]") == "second person cd signed 2 boxes."
    page.run(PRESS.format("export"))
    return str(page.run("document.getElementById('text').value"))


def test_a_tick_stays_and_a_changed_rig_starts_anew(browser: Browser, lake: Path, phone: Page) -> None:
    phone.run("document.querySelector('input[data-box]').parentElement.click()")
    assert phone.run(COUNT) == 1
    with opened(browser, card_of(lake), *PHONE) as again:
        assert (again.run(COUNT), again.run(KEPT)) == (1, "This device kept your ticks.")
    lake.write_text(
        lake.read_text("utf-8").replace("standing_tension: 4.5 kN", "standing_tension: 4.4 kN"), "utf-8"
    )
    with opened(browser, card_of(lake), *PHONE) as changed:
        assert changed.run(COUNT) == 0
        assert "has changed" in changed.run(KEPT)
        assert changed.run("Object.keys(localStorage).length") == 1  # the old ticks are still there


def test_it_says_what_a_signature_lacks(phone: Page) -> None:
    assert "then sign" in signed(phone, RIGGER, "input[data-box=none]")
    for key, wrong, told in [
        ("role", "", "your role"),
        ("initials", "", "your initials"),
        ("role", "a: b", "your role"),
        ("day", "", "the day"),
        ("tension", "", "4.5 kN is planned"),
        ("tension", "4.5.6", "is no tension"),
        ("tension", "0", "is no tension"),
    ]:
        assert told in signed(phone, {**RIGGER, key: wrong}, "input[data-names]")
    assert phone.run("document.getElementById('export').disabled")


def test_the_second_person_is_somebody_else_and_a_tick_taken_away_takes_its_signature(phone: Page) -> None:
    assert "A second person signs" in signed(phone, RIGGER, "input[data-names]")
    assert (
        phone.run("document.querySelector('[data-second]').parentElement.querySelector('.who').textContent")
        == ""
    )
    assert signed(phone, OTHER, "input[data-second]") == "second person cd signed 2 boxes."
    phone.run("document.querySelectorAll('[data-second]')[1].click()")
    assert "its signature is gone" in phone.run(TOLD)
    phone.run(PRESS.format("export"))
    assert "threading_checked" not in phone.run("document.getElementById('text').value")


def test_the_export_goes_into_the_rig_and_the_audit_takes_it(
    lake: Path, phone: Page, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """By command: values, checks and fingerprint stand in the file, and nothing on site is asked for again."""
    text = both_signed(phone)
    assert {one.get("after_tension") for one in yaml.safe_load(text)["checks"][1:]} == {"4.6 kN"}
    saved = lake.with_name("checks.txt")
    saved.write_text(text, encoding="utf-8")
    monkeypatch.setattr("tests.cli.test_tick_command.DAY", (*DAY, "--checks", str(saved)))
    assert said(monkeypatch, lake, "y", "y") == 0
    monkeypatch.undo()
    capsys.readouterr()
    assert open_ticks(capsys, lake) == []
    main(["audit", str(lake), *DAY, "--format", "json"])
    rules = [one["rule"] for file in json.loads(capsys.readouterr().out)["files"] for one in file["findings"]]
    asked = {"site/recheck", "site/changed_since_check"}
    assert [one for one in rules if one.startswith("file/") or one in asked] == []
    assert "by: second person cd, date: 2026-05-02, after_tension: 4.6 kN" in lake.read_text("utf-8")


def test_pasted_into_the_rig_it_is_taken_as_it_is_and_tick_writes_the_values(
    lake: Path, phone: Page, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = both_signed(phone).partition("checks:\n")[2]
    rig = lake.read_text("utf-8").replace("checks: []\n", f"checks:\n{lines}")
    lake.write_text(rig.replace("stage: planned", "stage: built"), encoding="utf-8")
    main(["audit", str(lake), *DAY, "--format", "json"])
    rules = [one["rule"] for file in json.loads(capsys.readouterr().out)["files"] for one in file["findings"]]
    assert [one for one in rules if one.startswith("file/") or one == "site/recheck"] == []
    assert open_ticks(capsys, lake) != []  # the values themselves are still to be written
    assert said(monkeypatch, lake, "y", "y") == 0
    assert "has the checks of these already" in capsys.readouterr().out
    assert open_ticks(capsys, lake) == []


def test_a_signed_card_is_reached_by_everyone_and_prints_with_its_signatures(phone: Page) -> None:
    both_signed(phone)
    phone.run(AXE + ";0")
    found = phone.run("axe.run().then(one => one.violations.map(each => [each.id, each.impact]))")
    assert [one for one in found if one[1] in {"serious", "critical"}] == []
    small = "[...document.querySelectorAll('label.box, .pen input, .pen button, .pen select')]"
    assert (
        phone.run(small + ".filter(one => one.getBoundingClientRect().height < 44).map(one => one.outerHTML)")
        == []
    )
    phone.call("Emulation.setEmulatedMedia", media="print")
    assert phone.run("getComputedStyle(document.querySelector('.pen')).display") == "none"
    assert phone.run("getComputedStyle(document.querySelector('.who')).display") == "block"


def test_what_no_file_says_is_not_signed(browser: Browser, lake: Path) -> None:
    page = card_of(lake, "--set", "plan.standing_tension=5 kN")
    with opened(browser, page, *PHONE) as what_if:
        assert what_if.run("document.scripts.length") == 0
        assert what_if.run("document.querySelectorAll('.last-look').length") == 0
