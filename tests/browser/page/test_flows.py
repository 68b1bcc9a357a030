"""What people do on the page, on a phone: open, see, change, take back, tick, time, ask, save, pass on."""

import json
import re
import time
from pathlib import Path

import pytest

from riglint.cli import main
from tests.browser.devtools import Browser, Page, opened
from tests.browser.page.conftest import PHONE, engine
from tests.browser.page.screens import library, open_files, press, said, settled, show, text_of, wait, write

FILES = library("rigs", "faulty", "spots", "shelf")
LONG, LOW = "faulty/long-line.yaml", "rigs/low-line.yaml"


def test_pasted_text_is_judged(page: Page) -> None:
    show(page, "open")
    write(page, "Or paste a rig here", "riglint: rig/1\ntitle: Pasted line\nuse: lowline\nchain: [\n")
    press(page, "Open what I pasted")
    settled(page)
    assert "NOT JUDGED" in said(page, ".top")
    assert "line" in said(page, "main").lower()


def test_every_finding_has_its_reason_and_what_to_do(page: Page) -> None:
    open_files(page, FILES, LONG)
    report = json.loads(page.run("riglint.page.audits.found.report"))
    (rig,) = (one for one in report["files"] if one["path"] == LONG)
    shown = " ".join(said(page).split())
    faults = [one for one in rig["findings"] if one["kind"] == "fail"]
    assert len(faults) >= 3
    for one in faults:
        assert one["why"] in shown
        assert one["do"] in shown
    assert page.run("document.querySelectorAll('main svg[role=img]').length") >= 3


@pytest.mark.parametrize("rig", [LONG, "rigs/highline-rope-backup.yaml", "faulty/waterline.yaml"])
def test_drawings_are_whole(page: Page, rig: str) -> None:
    """Built anew from the elements that drawings are made of, they are what the reports drew."""
    open_files(page, FILES, rig)
    drawn, shown = page.run(
        """(() => {
          const {profile, haul, chains} = riglint.page.file.drawings;
          const read = (text) => new DOMParser().parseFromString(text, 'text/html').body.firstElementChild.outerHTML;
          const drawn = [profile, haul, ...chains].filter(Boolean).map(read);
          return [drawn, [...document.querySelectorAll('main figure')].map((one) => one.outerHTML)];
        })()"""
    )
    assert len(drawn) >= 2
    assert sorted(shown) == sorted(drawn)


def test_a_remedy_is_one_tap_and_can_be_taken_back(page: Page) -> None:
    open_files(page, FILES, LONG)
    before = text_of(page, LONG)
    told = page.run("document.querySelector('.remedy .change').textContent")
    old, new = re.match(r"in the file: (.*) → (.*)", told).groups()  # type: ignore[union-attr]
    page.run("document.querySelector('.remedy').click()")
    settled(page)
    after = text_of(page, LONG)
    changed = [
        (one, other) for one, other in zip(before.split("\n"), after.split("\n"), strict=True) if one != other
    ]
    assert len(changed) == 1
    assert changed[0][0].replace(old, new) == changed[0][1]
    press(page, "Undo")
    settled(page)
    assert text_of(page, LONG) == before


def test_a_slider_changes_the_file_and_keeps_its_comments(page: Page) -> None:
    open_files(page, FILES, LOW)
    page.run("document.querySelector('[aria-label=\"More standing tension\"]').click()")
    settled(page)
    (line,) = (row for row in text_of(page, LOW).split("\n") if "standing_tension:" in row)
    assert line == "  standing_tension: 3.1 kN       # nobody on the line"


@pytest.mark.slow
def test_the_range_that_passes_is_drawn_on_the_slider(
    page: Page, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    open_files(page, FILES, LOW)
    press(page, "Show the range that passes")
    wait(page, "riglint.page.held.ranges")
    for name, held in FILES.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(held, encoding="utf-8")
    (tmp_path / "rig-library").touch()
    monkeypatch.chdir(tmp_path)
    main(["limits", LOW, "--on", page.run("riglint.page.on"), "--format", "json"])
    assert json.loads(capsys.readouterr().out) == page.run("riglint.page.held.ranges.found")
    assert page.run("document.querySelectorAll('.band').length") >= 3


def test_form_and_text_are_two_views_of_one_document(page: Page) -> None:
    open_files(page, FILES, LOW)
    show(page, "text")
    wait(page, "riglint.page.text.view")
    page.run(
        "(() => { const view = riglint.page.text.view, at = view.state.doc.toString().indexOf('3 kN');"
        "view.dispatch({changes: {from: at, to: at + 4, insert: '2.5 kN'}, userEvent: 'input.type'}); })()"
    )
    settled(page)
    show(page, "rig")
    assert "2.5 kN" in said(page)
    press(page, "Undo")
    settled(page)
    assert text_of(page, LOW) == FILES[LOW]


@pytest.mark.parametrize("late", ["{}", "{selection: {anchor: 3}}"])
def test_an_editor_that_works_on_never_writes_over_what_was_opened_meanwhile(page: Page, late: str) -> None:
    """The editor reads on when the machine has time for it, and has been seen to bring back the text before."""
    open_files(page, FILES, LOW)
    show(page, "text")
    wait(page, "riglint.page.text.view")
    newer = FILES[LOW].replace("3 kN", "2 kN")
    open_files(page, {LOW: newer}, LOW)
    page.run(f"riglint.page.text.view.dispatch({late})")
    settled(page)
    assert text_of(page, LOW) == newer
    page.run(f"riglint.page.library.states.delete({LOW!r}); riglint.page.text.view.dispatch({late})")
    assert page.run(f"riglint.page.library.states.has({LOW!r})") is False
    open_files(page, FILES, LOW)


def test_findings_stand_at_their_lines_in_the_text(page: Page) -> None:
    open_files(page, FILES, LONG)
    show(page, "text")
    settled(page)
    marks = "document.querySelector('.editor').shadowRoot.querySelectorAll('.cm-lint-marker').length"
    wait(page, f"{marks} > 0")
    text = text_of(page, LONG)
    row = next(n for n, line in enumerate(text.split("\n"), 1) if "standing_tension" in line)
    words = engine(page, "here", text=text, line=row, column=4)
    assert "kN" in words
    assert "tension" in words.lower()


def test_keys_units_and_names_complete(page: Page) -> None:
    open_files(page, FILES, LOW)
    rows = FILES[LOW].split("\n")

    def words(line: str, after: str) -> set[str]:
        row = next(n for n, one in enumerate(rows) if line in one)
        column = rows[row].index(after) + len(after) + 1
        return {one["word"] for one in engine(page, "words", text=FILES[LOW], line=row + 1, column=column)}

    assert "kN" in words("standing_tension:", "3 ")
    assert {"planned", "built"} <= words("stage:", "stage: ")
    assert "RS-2" in words("gear: RS-2", "gear: ")
    assert {"gate", "hut"} <= words("at: gate", "at: ")
    assert "gear: " in words("gear: RS-2", "    ")


def test_ticked_checks_become_lines_of_the_file(
    page: Page, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    open_files(page, FILES, LOW)
    show(page, "card")
    wait(page, "document.querySelector('.card .paper')")
    press(page, "Write them into the file")
    assert "Tick at least one" in said(page, ".note")
    page.run(
        "[...document.querySelectorAll('.card section .tick input')].slice(0, 3).forEach((one) => one.click())"
    )
    write(page, "Checked by", "rigger")
    write(page, "Standing tension", "3 kN")
    press(page, "Write them into the file")
    settled(page)
    text = text_of(page, LOW)
    assert text.startswith(FILES[LOW].split("checks:")[0].rstrip("\n"))
    written = re.findall(
        r"- \{what: \"(.*?)\", by: \"rigger\", date: [\d-]+, after_tension: \"3 kN\", fingerprint", text
    )
    assert set(written) >= {"chain[3].pins", "chain[9].pins"}  # each piece that one tick is about
    assert len(written) > 3
    for name, held in (FILES | {LOW: text}).items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(held, encoding="utf-8")
    (tmp_path / "rig-library").touch()
    assert main(["audit", str(tmp_path / LOW), "--on", page.run("riglint.page.on")]) in {
        0,
        1,
    }  # it can be read
    assert "file/" not in capsys.readouterr().out


def test_a_timed_pulse_becomes_a_tension(page: Page) -> None:
    open_files(page, FILES, "rigs/long-line.yaml")
    show(page, "gauge")
    press(page, "Start at your tap")
    for _ in range(3):
        time.sleep(0.3)
        page.run("document.querySelector('.watch').click()")
    press(page, "Take this time")
    assert page.run("Object.values(riglint.page.held.gauge.values).join(' ')").endswith(" s ± 0.2 s 3")
    write(page, "Time of all returns", "4.6 s ± 0.1 s")
    write(page, "Returns", "10")
    press(page, "Work out the tension")
    wait(page, "document.querySelector('.gauge .huge')")
    assert re.search(r"(Fits|May fit|Does not fit) the plan", said(page, ".gauge .answer"))


def test_a_link_holds_the_rig_and_nothing_of_it_is_sent(page: Page, browser: Browser, address: str) -> None:
    open_files(page, FILES, LOW)
    show(page, "more")
    press(page, "Make a link")
    wait(page, "riglint.page.held.link")
    link = page.run("riglint.page.held.link")
    assert link.startswith(f"{address}#rig=")
    with opened(browser, link, *PHONE) as other:
        wait(other, "riglint.page.library.names.length")
        assert text_of(other, LOW) == FILES[LOW]
        asked = [one["request"]["url"] for one in other.events("Network.requestWillBeSent")]
        assert not any("rig=" in url for url in asked)


def test_a_broken_link_is_a_sentence(browser: Browser, address: str) -> None:
    with opened(browser, f"{address}#rig=nonsense", *PHONE) as tab:
        wait(tab, "document.querySelector('.note').textContent")
        assert "does not hold a whole rig" in said(tab, ".note")


def test_drafts_are_kept_only_when_asked(browser: Browser, address: str) -> None:
    with opened(browser, address, *PHONE) as tab:
        tab.run("localStorage.clear()")
        tab.run(f"riglint.page.library.open({json.dumps({'mine.yaml': FILES[LOW]})})")
        assert tab.run("localStorage.length") == 0
        show(tab, "open")
        tab.run("[...document.querySelectorAll('.tick input')].at(-1).click()")
        assert json.loads(tab.run("localStorage.getItem('riglint drafts')")) == {"mine.yaml": FILES[LOW]}
    with opened(browser, address, *PHONE) as tab:
        press(tab, "Open the 1 kept files")
        assert text_of(tab, "mine.yaml") == FILES[LOW]
        tab.run(
            "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
            "riglint.page.library.append('mine.yaml', '# more')"
        )
        assert "could not be kept" in said(tab, ".note")
        assert text_of(tab, "mine.yaml").endswith("# more")
        show(tab, "open")
        press(tab, "Forget the kept files")
        assert tab.run("localStorage.length") == 0


def test_a_rig_is_asked_audited_carded_and_exported(
    page: Page, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    open_files(page, library("shelf"), "shelf/club.yaml")
    show(page, "ask")
    write(page, "Name of the rig", "Asked on a phone")
    press(page, "Begin")
    for _ in range(40):
        wait(page, "document.querySelector('.ask form, form.ask, .ask .strong') && riglint.page.asked?.said")
        if page.run("Boolean(riglint.page.asked.said.rig)"):
            break
        assert page.run("riglint.page.asked.said.wrong_answer || ''") == ""
        page.run("document.querySelector('form.ask').requestSubmit()")
    press(page, "Open it")
    settled(page)
    name = page.run("riglint.page.rig")
    assert "Asked on a phone" in said(page, ".top")
    report = page.run("riglint.page.audits.found.report")
    show(page, "card")
    wait(page, "document.querySelector('.card .paper')")
    text = text_of(page, name)
    for file, held in (library("shelf") | {name: text}).items():
        (tmp_path / file).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / file).write_text(held, encoding="utf-8")
    (tmp_path / "rig-library").touch()
    monkeypatch.chdir(tmp_path)
    main(["audit", name, "--on", page.run("riglint.page.on"), "--format", "json"])
    assert capsys.readouterr().out == report
