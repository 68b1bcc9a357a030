"""Standard input judged in place of a file: what comes in counts, whatever stands on the disk."""

import subprocess
from pathlib import Path

import pytest

from riglint.read.decoding import MAX_BYTES
from tests.cli.calling import DAY, SHORT_TAIL, SOUND, command, environment, write

CALL = ("audit", "-", *DAY, "--stop-at", "CAUTION")


def judged(here: Path, given: str | bytes, *more: str) -> subprocess.CompletedProcess[bytes]:
    raw = given if isinstance(given, bytes) else given.encode()
    return subprocess.run(
        command(*CALL, *more), cwd=here, env=environment(), input=raw, capture_output=True, check=False
    )


@pytest.mark.parametrize("on_disk", [SOUND, "name: x\n", "", None])
@pytest.mark.parametrize("more", [(), ("--if-any",)])
def test_what_comes_in_is_judged_and_not_what_stands_there(
    library: Path, on_disk: str | None, more: tuple[str, ...]
) -> None:
    if on_disk is not None:
        write(library / "low.yaml", on_disk)
    done = judged(library, SHORT_TAIL, "--as", "low.yaml", *more)
    assert (done.returncode, done.stderr) == (1, b"")
    assert b"1 file seen: 1 audited, 0 left out, 0 refused." in done.stdout


def test_nothing_that_comes_in_is_no_rig(library: Path) -> None:
    write(library / "low.yaml", SOUND)
    assert judged(library, b"", "--as", "low.yaml").returncode == 2


def test_more_than_a_file_may_hold_is_refused(library: Path) -> None:
    done = judged(library, SOUND.encode() + b"#" * MAX_BYTES, "--as", "low.yaml")
    assert done.returncode == 2
    assert b"1 file seen: 0 audited, 0 left out, 1 refused." in done.stdout


def test_a_folder_is_no_place_for_a_text(library: Path) -> None:
    """The folder's own files would be judged, and what came in would not."""
    write(library / "low.yaml", SOUND)
    done = judged(library, SHORT_TAIL, "--as", ".")
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.startswith(b". is a folder.")


def test_closed_standard_input_gives_3(library: Path) -> None:
    call = ["sh", "-c", 'exec "$@" <&-', "sh", *command(*CALL, "--as", "low.yaml")]
    done = subprocess.run(call, cwd=library, env=environment(), capture_output=True, check=False)
    assert (done.returncode, done.stdout) == (3, b"")
    assert done.stderr == b"Standard input is closed, so there is nothing to judge.\n"
