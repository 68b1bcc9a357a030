"""What the browser tests start from: one browser, and the pages that riglint writes of its example library."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from riglint.cli import main
from riglint.testing import BASELINES
from tests.browser.devtools import Browser, installed

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = ("--on", "2026-05-02")
ODD = (
    '<script>document.title = "taken"</script> קו הליכה \u202eenil\u202c Ünïcode 線 &amp; "quotes" '
    + "longword" * 12
)
AUDITS = {
    "audit of sound rigs": "rigs",
    "audit of faulty rigs": "faulty",
    "audit of a rig with open fields": "open",
    "audit of one highline": "faulty/highline-rope-backup.yaml",
}
SHEETS = {
    "sheet of a low line": "rigs/low-line.yaml",
    "sheet of a highline": "rigs/highline-rope-backup.yaml",
}
CARDS = {
    "card of a low line": "rigs/low-line.yaml",
    "card of the long line": "rigs/long-line.yaml",
    "card of a highline": "rigs/highline-webbing-backup.yaml",
    "card of a faulty highline": "faulty/highline-rope-backup.yaml",
}
DAYS = {"audit of a day": "audit", "card of a day": "card"}
FESTIVAL = (str(EXAMPLES / "festival"), "--day", "2026-05-09")
NAMES = (*AUDITS, "audit of odd letters", *SHEETS, *CARDS, "card of odd letters", *DAYS)
OPEN_CARD = "card of a rig with open fields"  # its line cannot be drawn


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    executable = installed()
    if executable is None:
        pytest.skip("no browser: chromium, chromium-browser or google-chrome is not on the path")
    running = Browser(executable, tmp_path_factory.mktemp("profile"))
    try:
        running.call("Browser.getVersion")
    except OSError as error:  # no fault of the pages
        running.close()
        pytest.skip(f"the browser {executable} does not start: {error}")
    yield running
    running.close()


@pytest.fixture(scope="session")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Every page by name, written once."""
    folder = tmp_path_factory.mktemp("pages")
    made = {name: folder / f"{name.replace(' ', '-')}.html" for name in (*NAMES, OPEN_CARD)}
    for name, place in AUDITS.items():
        main(["audit", str(EXAMPLES / place), *DAY, "--format", "html", "--output", str(made[name])])
    for name, command in DAYS.items():
        main([command, *FESTIVAL, *DAY, "--format", "html", "--output", str(made[name])])
    for name, place in SHEETS.items():
        main(["sheet", str(EXAMPLES / place), *DAY, "--format", "html", "--output", str(made[name])])
    for name, place in CARDS.items():
        main(["card", str(EXAMPLES / place), *DAY, "--format", "html", "--output", str(made[name])])
    rig = folder / "odd.yaml"
    lines = (BASELINES / "low.yaml").read_text(encoding="utf-8").splitlines()
    titled = [f"title: {ODD!r}" if line.startswith("title:") else line for line in lines]
    text = "\n".join(titled).replace("tail: 1 m,", "tail: 0.1 m,")
    rig.write_text(text.replace("WA-1", "WA-1_of_the_beginners_bag_in_the_far_hut"), encoding="utf-8")
    for command in ("audit", "card"):
        odd = made[f"{command} of odd letters"]
        main([command, str(rig), *DAY, "--format", "html", "--output", str(odd)])
    open_rig = EXAMPLES / "open/low-line-six-open.yaml"
    main(["card", str(open_rig), *DAY, "--format", "html", "--output", str(made[OPEN_CARD])])
    return made
