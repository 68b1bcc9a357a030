"""The page keeps to itself: no request leaves, it works without a network, and no file makes it do more than judge."""

import json
import re
import threading
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from riglint.page.content_policy import content_policy
from riglint.page.serving import HERE, Handler, server_of
from riglint.testing import BASELINES
from tests.browser.devtools import Browser, Page, opened
from tests.browser.page.conftest import PHONE, engine
from tests.browser.page.screens import library, open_files, press, said, settled, show, text_of, wait

FILES = library("rigs", "faulty", "spots", "shelf")
LONG = "faulty/long-line.yaml"
SCREENS = ("open", "ask", "rig", "text", "card", "gauge", "more")
TAKE = "document.title='taken'"
MARKUP = f'<img src="http://outside.invalid/x" onerror="{TAKE}"><script>{TAKE}</script>'


def listened(tab: Page) -> list[str]:
    """Every address that the page, its workers included, has asked for."""
    return [one["request"]["url"] for one in tab.events("Network.requestWillBeSent")]


def test_the_policy_names_no_other_origin_and_no_eval() -> None:
    policy = content_policy()
    assert policy.startswith("default-src 'none'; ")
    assert "http" not in policy
    assert "'unsafe-eval'" not in policy
    assert "'unsafe-inline'" not in policy
    assert "*" not in policy


def test_the_server_speaks_to_this_machine_alone(address: str) -> None:
    assert urlsplit(address).hostname == HERE == "127.0.0.1"


def test_nothing_leaves_after_the_page_has_loaded_and_flight_mode_does(browser: Browser, built: Path) -> None:
    """Held on the server's side, where worker and service worker are seen too; and by the browser for every origin."""
    asked: list[str] = []

    class Counting(Handler):
        def log_message(self, *_: object) -> None:
            asked.append(self.path)

    server = server_of(built, handler=Counting)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    start = f"http://{HERE}:{server.server_port}/"
    with opened(browser, start, *PHONE) as tab:
        wait(tab, "riglint.page.offline")
        asked_while_loading = len(asked)
        names = {urlsplit(path).path for path in asked}
        open_files(tab, FILES, LONG)
        for screen in SCREENS:
            show(tab, screen)
            settled(tab)
            if screen == "card":
                wait(tab, "document.querySelector('.card .paper')?.contentDocument?.querySelector('h1')")
        show(tab, "rig")
        tab.run("document.querySelector('.remedy').click()")
        settled(tab)
        assert asked[asked_while_loading:] == []
        assert {urlsplit(url).netloc for url in listened(tab) if url.startswith("http")} == {
            urlsplit(start).netloc
        }
        assert not [one for one in tab.events("Log.entryAdded") if "Content Security Policy" in str(one)]
    assert {"/packages.zip", "/pyodide.asm.wasm.gz"} <= names
    server.shutdown()
    server.server_close()  # nobody answers at that address any more
    with opened(browser, start, *PHONE) as tab:
        open_files(tab, FILES, LONG)
        assert "WARNING" in said(tab, ".top")
        policy = tab.run("fetch('page.css').then((got) => got.headers.get('Content-Security-Policy'))")
        assert policy == content_policy()


def test_the_engine_has_no_way_out(page: Page, browser: Browser) -> None:
    """Asked in the worker itself: all that could send is gone."""
    page.call("Target.setAutoAttach", autoAttach=True, waitForDebuggerOnStart=False, flatten=True)
    (worker,) = {
        one["sessionId"]
        for one in page.events("Target.attachedToTarget")
        if one["targetInfo"]["type"] == "worker" and one["targetInfo"]["url"].endswith("/worker.js")
    }
    for way in ("fetch", "XMLHttpRequest", "WebSocket", "EventSource", "importScripts"):
        kind = browser.call("Runtime.evaluate", worker, expression=f"typeof self.{way}")["result"]["value"]
        assert kind == "undefined", way
    alive = browser.call("Runtime.evaluate", worker, expression="typeof self.postMessage")["result"]["value"]
    assert alive == "function"


@pytest.mark.parametrize("key", ["title", "note"])
def test_what_somebody_wrote_is_never_markup(page: Page, key: str) -> None:
    low = (BASELINES / "low.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^title:.*$", lambda _: f"title: {json.dumps(MARKUP)}", low, flags=re.MULTILINE)
    if key == "note":
        text = text.replace("\nchain:", f"\nnote: {json.dumps(MARKUP)}\nchain:", 1)
    text = text.replace("WA-1", "WA-1<b>x</b>").replace("tail: 1 m", "tail: 0.1 m")
    open_files(page, {f"{MARKUP.replace('/', '_')}.yaml": text, "rig.yaml": text}, "rig.yaml")
    for screen in SCREENS:
        show(page, screen)
        settled(page)
        if screen == "card":
            wait(page, "document.querySelector('.card .paper, .card ~ *, main h2')")
        assert (
            page.run("document.querySelectorAll('main img, main script, .top img, .top script').length") == 0
        )
    assert page.run("document.title") == "riglint: check a slackline rig"
    assert not any("outside.invalid" in url for url in listened(page))


HOSTILE = {
    "nested": "riglint: rig/1\nchain: " + "[" * 20000,
    "bomb": "a: &a [x, x]\nb: &b [*a, *a]\nriglint: rig/1\nc: [*b, *b]\n",
    "long": "riglint: rig/1\ntitle: " + "x" * 200_000,
    "numbers": "riglint: rig/1\nplan: {standing_tension: 9" + "9" * 5000 + " kN}\n",
    "controls": "riglint: rig/1\ntitle: \u202eabc\x07\x1b[31m\n",
    "nul": "riglint: rig/1\ntitle: a\x00b\n",
    "key": "riglint: rig/1\n__proto__: {polluted: yes}\nconstructor: 1\n",
    "outside": "riglint: rig/1\ntitle: x\nspot: ../../../lib/python3.14/os.py\nchain: []\n",
    "self": "riglint: rig/1\ntitle: x\nspot: rig.yaml\nshelf: [rig.yaml]\nchain: []\n",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_told_of_and_nothing_breaks(page: Page, name: str) -> None:
    open_files(page, {"rig.yaml": HOSTILE[name]}, "rig.yaml")
    shown = said(page, ".top")
    assert "NOT JUDGED" in shown or "DANGER" in shown or "WARNING" in shown
    assert text_of(page, "rig.yaml") == HOSTILE[name]  # nothing of it is lost
    assert page.run("({}).polluted") is None
    open_files(page, FILES, LONG)
    assert "WARNING" in said(page, ".top")


def test_the_kept_corpus_of_the_fuzzers_is_answered(page: Page) -> None:
    corpus = Path(__file__).parents[2] / "fuzz/corpus"
    inputs = [
        str(text) for file in sorted(corpus.glob("*.json")) for text in _texts(json.loads(file.read_text()))
    ]
    assert len(inputs) >= 5
    for text in inputs:
        answer = engine(
            page,
            "audit",
            {"rig.yaml": text.encode("utf-8", "surrogatepass")},
            paths=["rig.yaml"],
            on="2026-05-02",
        )
        assert "wrong" not in answer, answer["wrong"]


def _texts(value: object) -> list[str]:
    """Every text in a kept input that could be a file."""
    if isinstance(value, str):
        return [value] if len(value) > 20 else []
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else []
    return [text for one in inside for text in _texts(one)]


def test_a_zip_that_is_none_is_a_sentence(page: Page) -> None:
    page.run(
        "(async () => { const {take} = riglint.opening;"
        "await take(riglint.page, [new File(['no zip'], 'library.zip')]); })()"
    )
    assert "The zip cannot be read" in said(page, ".note")


def test_house_rules_are_not_run_and_it_says_so(page: Page) -> None:
    page.run(
        "(async () => { const {take} = riglint.opening;"
        "await take(riglint.page, [new File(['riglint: rig/1\\n'], 'a.yaml'), new File(['x'], 'rule.py')]); })()"
    )
    assert "House rules are programs, and this page does not run them" in said(page, ".note")
    show(page, "more")
    press(page, "Show the sheet")
    assert "House rules are programs" in said(page)
