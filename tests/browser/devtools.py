"""A headless browser driven by the DevTools protocol through a pipe: no driver, no port, nothing but Chromium.

Protocol: https://chromedevtools.github.io/devtools-protocol/. Messages are JSON, each ended by a NUL, read by the
browser from descriptor 3 and written to 4 (--remote-debugging-pipe).
"""

import base64
import json
import os
import select
import shutil
import signal
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome")
QUIET = (
    "--headless",
    "--no-sandbox",  # as root there is none; only our own files are opened
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--remote-debugging-pipe",
)
PATIENCE_S = 60.0


def installed() -> str | None:
    """Where a browser is, if there is one."""
    return next((path for path in map(shutil.which, NAMES) if path), None)


class Browser:
    """One browser process."""

    def __init__(self, executable: str, profile: Path) -> None:
        to_browser, self._write = os.pipe()
        self._read, from_browser = os.pipe()
        silence = os.open(os.devnull, os.O_RDWR)
        actions = [
            (os.POSIX_SPAWN_DUP2, silence, 0),
            (os.POSIX_SPAWN_DUP2, silence, 1),
            (os.POSIX_SPAWN_DUP2, silence, 2),
            (
                os.POSIX_SPAWN_DUP2,
                to_browser,
                13,
            ),  # out of the way first, so that neither end lands on the other
            (os.POSIX_SPAWN_DUP2, from_browser, 14),
            (os.POSIX_SPAWN_DUP2, 13, 3),
            (os.POSIX_SPAWN_DUP2, 14, 4),
            (os.POSIX_SPAWN_CLOSE, 13),
            (os.POSIX_SPAWN_CLOSE, 14),
        ]
        argv = [executable, *QUIET, f"--user-data-dir={profile}"]
        self._pid = os.posix_spawn(executable, argv, dict(os.environ), file_actions=actions, setpgroup=0)
        for descriptor in (to_browser, from_browser, silence):
            os.close(descriptor)
        self._left, self._number = b"", 0
        self.events: list[dict[str, Any]] = []

    def call(self, method: str, session: str | None = None, **parameters: Any) -> dict[str, Any]:
        """Ask for something and wait for the answer; events that come first are kept."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if session is not None:
            message["sessionId"] = session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        until = time.monotonic() + PATIENCE_S
        while True:
            answer = self._next(until, method)
            if answer.get("id") != self._number:
                self.events.append(answer)
            elif "error" in answer:
                raise RuntimeError(f"{method}: {answer['error']['message']}")
            else:
                result: dict[str, Any] = answer["result"]
                return result

    def wait_for(self, method: str, session: str) -> None:
        """Wait until an event has come."""
        until = time.monotonic() + PATIENCE_S
        while not any(one.get("method") == method and one.get("sessionId") == session for one in self.events):
            self.events.append(self._next(until, method))

    def _next(self, until: float, what: str) -> dict[str, Any]:
        while b"\0" not in self._left:
            ready, _, _ = select.select([self._read], [], [], max(0.0, until - time.monotonic()))
            got = os.read(self._read, 1 << 20) if ready else b""
            if not got:
                raise TimeoutError(f"the browser did not answer {what}")
            self._left += got
        message, _, self._left = self._left.partition(b"\0")
        read: dict[str, Any] = json.loads(message)
        return read

    def close(self) -> None:
        """End the browser and whatever it started."""
        try:
            self.call("Browser.close")
        except (RuntimeError, OSError):
            with suppress(ProcessLookupError):
                os.killpg(self._pid, signal.SIGKILL)
        os.close(self._write)
        os.waitpid(self._pid, 0)
        os.close(self._read)


class Page:
    """One tab of a size, with a file opened in it."""

    def __init__(self, browser: Browser, session: str, file: Path | str) -> None:
        self._browser, self._session = browser, session
        self.url = file if isinstance(file, str) else file.as_uri()

    def call(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Ask the tab for something."""
        return self._browser.call(method, self._session, **parameters)

    def run(self, script: str) -> Any:
        """Return what a script in the page gives; a promise is waited for."""
        said = self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in said:
            raise RuntimeError(said["exceptionDetails"]["exception"].get("description", "a script failed"))
        return said["result"].get("value")

    def events(self, *methods: str) -> list[dict[str, Any]]:
        """Return what came of the tab, in full."""
        ours = (one for one in self._browser.events if one.get("sessionId") == self._session)
        return [one["params"] for one in ours if one["method"] in methods]

    def pdf(self) -> bytes:
        """Return the page as it prints, by its own style sheet's paper."""
        said = self.call("Page.printToPDF", preferCSSPageSize=True, printBackground=False)
        return base64.b64decode(said["data"])

    def picture(self) -> bytes:
        """Return what the screen shows as PNG."""
        said = self.call("Page.captureScreenshot", format="png")
        return base64.b64decode(said["data"])


@contextmanager
def opened(browser: Browser, file: Path | str, width: int, height: int) -> Iterator[Page]:
    """Open a file, or an address, in a tab of its own."""
    target = browser.call("Target.createTarget", url="about:blank")["targetId"]
    session = browser.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
    page = Page(browser, session, file)
    for domain in ("Page", "Runtime", "Log", "Network", "Accessibility", "DOM"):
        page.call(f"{domain}.enable")
    phone = width < 600
    page.call(
        "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=phone
    )
    page.call("Page.navigate", url=page.url)
    browser.wait_for("Page.loadEventFired", session)
    yield page
    browser.call("Target.closeTarget", targetId=target)
    browser.events.clear()
