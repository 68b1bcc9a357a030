"""The audit as a page: everything escaped, colours that can be read, small enough for a whole library."""

import re
from datetime import date
from html import unescape
from html.parser import HTMLParser
from itertools import product
from pathlib import Path

import pytest

from riglint.findings import Audit, audit
from riglint.policy import load_policy
from riglint.reports.audit.html import audit_html
from riglint.reports.audit.style import DARK, STYLE
from riglint.reports.drawing import signs, svg
from riglint.reports.sheet.html import safe
from riglint.rulebook import load_rulebook
from riglint.testing import BASELINES
from riglint.views.audit.reader import for_a_reader
from riglint.views.audit.verdict import verdicts
from riglint.views.audit.words import CAUTION_TEXT, closing

ON = date(2026, 5, 2)
EXAMPLES = Path(__file__).parents[2] / "examples"
SOUND = (BASELINES / "low.yaml").read_text(encoding="utf-8")
EMPTY = {"meta", "br", "hr", "img", "input", "link"}


class Reader(HTMLParser):
    """Reads a page: tags that match, ids, links, words."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.outside: list[str] = []
        self.feed(page)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag not in EMPTY:
            self.open.append(tag)
        self._read(dict(attrs))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self._read(dict(attrs))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def _read(self, said: dict[str, str | None]) -> None:
        self.ids += [one for one in (said.get("id"),) if one]
        self.links += [one for one in (said.get("href"),) if one]
        self.outside += [key for key in said if key in {"src", "srcset", "poster", "data", "action", "style"}]
        assert not any(key.startswith("on") for key in said)


@pytest.fixture(scope="module")
def faulty() -> Audit:
    return audit([EXAMPLES / "faulty"], load_rulebook(), ON)


@pytest.fixture(scope="module")
def page(faulty: Audit) -> str:
    return audit_html(faulty)


def audited(folder: Path, text: str) -> str:
    file = folder / "rig.yaml"
    file.write_text(text, encoding="utf-8")
    return audit_html(audit([file], load_rulebook(), ON))


def test_tags_match_names_are_unique_links_lead_somewhere_and_nothing_is_fetched(page: str) -> None:
    read = Reader(page)
    assert len(read.ids) == len(set(read.ids))
    assert set(read.links) <= {f"#{one}" for one in read.ids}
    assert read.outside == []
    assert not {"script", "link", "iframe", "object", "img"} & set(read.tags)
    assert "url(" not in STYLE
    assert "@import" not in STYLE


def test_two_runs_give_the_same_bytes(page: str) -> None:
    assert audit_html(audit([EXAMPLES / "faulty"], load_rulebook(), ON)) == page


def test_it_holds_all_that_was_found(page: str, faulty: Audit) -> None:
    for finding in for_a_reader(faulty).findings:
        assert safe(finding.message) in page
        assert safe(finding.do) in page or finding.message.startswith("On site: ")
        assert finding.rule in page
    assert safe(closing(faulty)) in page
    assert safe(CAUTION_TEXT) in page
    assert str(faulty.on) in page


def test_the_answer_stands_above_everything_else_and_the_worst_rig_first(page: str, faulty: Audit) -> None:
    top = page[: page.index("<main>")]
    told = verdicts(for_a_reader(faulty))
    assert len(told) == 7
    assert re.findall(r">(DANGER|WARNING)<", top) == ["DANGER", *(verdict.word for _, verdict in told)]
    assert all(safe(verdict.sentence) in top for _, verdict in told)
    assert page.index(safe(told[0][1].next_step)) < page.index("Files, worst first") < page.index("<main>")
    assert page.index("<main>") < page.index("Findings by signal word")


def test_the_title_carries_the_rig_and_the_word(tmp_path: Path) -> None:
    made = audited(tmp_path, SOUND.replace("tail: 1 m,", "tail: 0.1 m,"))
    assert re.search(r"<title>WARNING · [^<]+</title>|<title>CAUTION · [^<]+</title>", made)


def test_a_sound_rig_wears_no_signal_word_and_none_that_calls_it_good(tmp_path: Path) -> None:
    top = audited(tmp_path, SOUND).partition("<main>")[0]
    words = re.findall(r'<span class="sign[^>]*>(?:<svg.*?</svg>)?([A-Z ]+)<', top)
    assert words == ["LOOK"]


@pytest.mark.parametrize(
    "title",
    [
        '<script>alert(1)</script><img src=x onerror="alert(1)">',
        '"></title></style></svg><script>alert(1)</script>',
        "קו הליכה \u202eenil\u202c \u2066x",
        "&lt;b&gt; ]]> <!-- --",
    ],
)
def test_a_title_stays_a_title(tmp_path: Path, title: str) -> None:
    written = "\n".join(
        "title: '" + title.replace("'", "''") + "'" if one.startswith("title:") else one
        for one in SOUND.splitlines()
    )
    made = audited(tmp_path, written)
    tags = set(Reader(made).tags)
    assert not {"script", "img"} & tags
    assert not any(letter in made for letter in "\u202e\u202c\u2066")
    shown = re.search(r"<h2 id=\"file1-title\">(.*?)</h2>", made)
    assert shown is not None
    hidden = re.compile("[\u202a-\u202e\u2066-\u2069]")
    assert unescape(shown[1]) == hidden.sub(" ", title)  # a space where something was hidden


def test_a_chain_that_is_broken_is_drawn_without_figures(tmp_path: Path) -> None:
    made = audited(tmp_path, SOUND.replace("{part: webbing,", "{part: ring,", 1))
    assert "<h3>Faults</h3>" in made
    assert Reader(made).tags


def test_a_file_that_cannot_be_read_is_told_of(tmp_path: Path) -> None:
    made = audited(tmp_path, SOUND.replace("hitch: basket", "hich: basket", 1))
    assert "hich" in made
    assert "Not judged" in made


def test_a_policy_that_loosens_stands_at_the_top_with_its_reason(tmp_path: Path) -> None:
    book = load_rulebook()
    file, rig = tmp_path / "policy.yaml", tmp_path / "rig.yaml"
    change = "values:\n  model.bounce_height: {value: 0.4 m, because: <i>beginners</i> only}\n"
    file.write_text(f"riglint: policy/1\ntitle: Meadow club\n{change}", encoding="utf-8")
    rig.write_text(SOUND, encoding="utf-8")
    force, problems = load_policy(file, book)
    assert force is not None, problems
    made = audit_html(audit([rig], book, ON, force=force))
    told = "from 0.5 m to 0.4 m, because &lt;i&gt;beginners&lt;/i&gt; only"
    assert told in made[: made.index("<main>")]


def test_what_is_accepted_stands_apart(tmp_path: Path) -> None:
    entry = "{rule: tail/webbing, reason: short line, role: rigger, until: 2026-06-01}"
    made = audited(
        tmp_path, SOUND.replace("tail: 1 m,", "tail: 0.1 m,").replace("accepted: []", f"accepted: [{entry}]")
    )
    apart = made[made.index("Accepted, so they do not count for the exit status") :]
    assert "Accepted by rigger until 2026-06-01: short line (tail/webbing)" in apart
    assert "What stops" not in made


def test_the_chain_shows_the_gravest_finding_beside_its_part(page: str) -> None:
    low = re.search(r'id="(file\d+)-title">Orchard, low', page)
    assert low is not None
    chain = re.search(rf'<desc id="{low[1]}-chain-desc">(.*?)</desc>', page)
    assert chain is not None
    said = chain[1].split("; ")
    assert any(re.match(r"sling RS-1: .* of .* kN, ratio .*, asked 2.5, CAUTION: ", one) for one in said)


def test_fifty_rigs_stay_below_two_megabytes(faulty: Audit) -> None:
    rigs = [one for one in faulty.files if one.kind == "rig"]
    many = Audit(ON, (rigs * 9)[:50], rules=faulty.rules)
    assert len(many.files) == 50
    made = audit_html(many)
    assert len(made.encode()) < 2_000_000
    assert made.count('<li><span class="sign') >= 50


# Contrast after WCAG 2.2, "relative luminance" and "contrast ratio"; 4.5 : 1 for text, 3 : 1 for what is drawn


def luminance(colour: str) -> float:
    shares = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(
        4.54, abs=0.005
    )  # the usual example of just enough
    assert contrast("#777777", "#ffffff") < 4.5


def rules_of_style() -> list[dict[str, str]]:
    rows = re.findall(r"([^{}]+)\{([^{}]*)\}", STYLE)
    return [dict(re.findall(r"([\w-]+):\s*([^;]+)", declared)) for _, declared in rows]


def test_every_text_of_the_style_sheet_can_be_read_on_its_ground() -> None:
    own = [
        (one["color"], one["background"]) for one in rules_of_style() if {"color", "background"} <= one.keys()
    ]
    alone = {one["color"] for one in rules_of_style() if "color" in one and "background" not in one} - {
        "inherit"
    }
    grounds = {
        one["background"] for one in rules_of_style() if "background" in one and "color" not in one
    } | {"#ffffff"}
    assert len(own) >= 6  # body, four signs, what is to be looked at
    assert len(alone) >= 2
    pairs = [*own, *product(alone, grounds)]
    assert [(one, other) for one, other in pairs if contrast(one, other) < 4.5] == []


def test_every_colour_of_the_drawings_can_be_seen() -> None:
    words = (svg.INK, svg.GREY, svg.BLUE, svg.RED)
    assert [one for one in words if contrast(one, "#ffffff") < 4.5] == []
    assert contrast(svg.INK, svg.SOIL) > 3.0  # the ground's edge
    assert [pair for pair in signs.COLOURS.values() if contrast(*pair) < 4.5] == []


def test_every_text_can_be_read_on_a_dark_screen() -> None:
    rows = [dict(re.findall(r"([\w-]+):\s*(#[0-9a-f]{6})", row)) for row in re.findall(r"\{([^{}]*)\}", DARK)]
    grounds = {one["background"] for one in rows if "background" in one and "color" in one}
    words = {one["color"] for one in rows if "color" in one}
    assert len(grounds) == 2
    assert len(words) >= 3
    assert [pair for pair in product(words, grounds) if contrast(*pair) < 4.5] == []
