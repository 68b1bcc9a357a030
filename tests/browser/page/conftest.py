"""What these tests start from: the page, built once for all workers of a run, and served on this machine only."""

import base64
import fcntl
import json
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from riglint.page.build import build_page
from riglint.page.materials import MissingPartError
from riglint.page.serving import server_of
from tests.browser.devtools import Browser, Page, opened

PHONE, DESK = (390, 844), (1280, 900)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built page. Where a part of it is not to be had, the tests are skipped with that sentence."""
    shared = tmp_path_factory.getbasetemp()
    shared = shared.parent if shared.name.startswith("popen-") else shared  # of all workers of this run
    folder, lacking = shared / "riglint-page", shared / "riglint-page.lacking"
    with (shared / "riglint-page.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists() and not lacking.exists():
            try:
                build_once(folder)
            except MissingPartError as error:
                lacking.write_text(str(error), encoding="utf-8")
    if lacking.exists():
        pytest.skip(lacking.read_text(encoding="utf-8"))
    return folder


def build_once(folder: Path, library: Path | None = None) -> None:
    """Build the page.

    Raises:
        MissingPartError: npm or a registry is not to be had.
    """
    if shutil.which("npm") is None:
        raise MissingPartError("no npm, which brings the page's runtime")
    build_page(folder, library)


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """Serve a folder on this machine while the block runs."""
    server = server_of(folder)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="session")
def address(built: Path) -> Iterator[str]:
    with serving(built) as address:
        yield address


@pytest.fixture(scope="session")
def loaded(browser: Browser, address: str) -> Iterator[Page]:
    """The page with its engine loaded, once for a worker: loading is what takes longest."""
    with opened(browser, address, *PHONE) as tab:
        said = engine(tab, "about")
        assert "wrong" not in said, said
        yield tab


@pytest.fixture
def page(loaded: Page) -> Page:
    """The loaded page as a phone shows it by day."""
    sized(loaded, PHONE)
    return loaded


def sized(tab: Page, size: tuple[int, int], scheme: str = "light") -> None:
    """Show a tab as a screen of that size does, by day or in the dark."""
    wide, high = size
    phone = wide < DESK[0]
    tab.call("Emulation.setDeviceMetricsOverride", width=wide, height=high, deviceScaleFactor=1, mobile=phone)
    tab.call("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": scheme}])


def engine(tab: Page, name: str, files: dict[str, bytes] | None = None, **arguments: Any) -> Any:
    """Ask the engine of an open page; `files` are laid into its library first."""
    held = {path: base64.b64encode(raw).decode() for path, raw in (files or {}).items()}
    return tab.run(
        f"""(async () => {{
          const held = {json.dumps(held)}, files = {{}};
          for (const name in held) files[name] = Uint8Array.from(atob(held[name]), (one) => one.charCodeAt(0));
          return riglint.engine.call({json.dumps(name)}, {json.dumps(arguments)}, {"files" if files else "null"});
        }})()"""
    )
