"""A zip that somebody opens in the page: its text files, never more than a library holds."""

from __future__ import annotations

from pathlib import Path, PurePosixPath
from typing import Any
from zipfile import BadZipFile, ZipFile

from riglint.read.decoding import MAX_BYTES
from riglint.read.file_names import YAML

MOST_FILES, MOST_BYTES = 2_000, 20_000_000
MARK = "rig-library"  # where a library begins


def unpacked(archive: Path) -> dict[str, Any]:
    """Return the files of a zip by their paths in it, bytes as Latin-1 text, and how many rule files stay out."""
    try:
        with ZipFile(archive) as held:
            return _files(held)
    except (BadZipFile, OSError, NotImplementedError, RuntimeError, ValueError, EOFError) as error:
        return {
            "wrong": f"The zip cannot be read ({error}). Pack the folder again, or open its files one by one."
        }


def _files(held: ZipFile) -> dict[str, Any]:
    files: dict[str, str] = {}
    rules, left = 0, MOST_BYTES
    for entry in held.infolist():
        name = PurePosixPath(entry.filename.replace("\\", "/"))
        rules += name.suffix == ".py"
        if entry.is_dir() or name.is_absolute() or ".." in name.parts:
            continue
        if name.suffix.lower() not in YAML and name.name != MARK:
            continue
        with held.open(entry) as stream:  # what an entry says of its own size may be a lie
            raw = stream.read(min(left, MAX_BYTES) + 1)
        left -= len(raw)
        if left < 0 or len(files) >= MOST_FILES:
            return {
                "wrong": "The zip holds more than 20 MB or 2,000 files. Open a smaller part of the library."
            }
        files[name.as_posix()] = raw.decode("latin-1")
    return {"files": files, "rules": rules}
