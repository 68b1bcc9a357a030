"""The pictures of the README are there, small enough, and the terminal among them says what an audit says today."""

import re
import sys

from tests.package.checkout import CHECKOUT, started
from tests.pictures import NO_SEAL, ON, PAGE_SHOTS, PICTURES, RIG, SHOTS, WIDTH, words

README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
MOST_BYTES = 600_000


def test_every_picture_of_the_readme_is_there_and_no_other() -> None:
    named = set(re.findall(r"examples/pictures/([\w.-]+)", README))
    assert named == {"terminal.svg", *SHOTS, *PAGE_SHOTS} == {path.name for path in PICTURES.iterdir()}


def test_every_picture_has_words_for_those_who_do_not_see_it() -> None:
    assert len(re.findall(r"!\[[^\]]{20,}\]\(examples/pictures/", README)) == len(list(PICTURES.iterdir()))


def test_they_are_small_and_what_their_names_say() -> None:
    files = list(PICTURES.iterdir())
    assert sum(path.stat().st_size for path in files) < MOST_BYTES
    for name in (*SHOTS, *PAGE_SHOTS):
        start = (PICTURES / name).read_bytes()[:12]
        assert (start[:4], start[8:]) == (b"RIFF", b"WEBP")


def test_the_terminal_says_what_an_audit_says_today() -> None:
    call = [sys.executable, "-m", "riglint", "audit", str(RIG), "--on", ON]
    said = started(call, CHECKOUT, COLUMNS=str(WIDTH)).stdout
    svg = (PICTURES / "terminal.svg").read_text(encoding="utf-8")
    said = re.sub(r"(?<=rulebook )[0-9a-f]{12}", NO_SEAL, said)
    assert words(svg) == said.split(), "run python -m tests.pictures"
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")  # nothing is fetched
