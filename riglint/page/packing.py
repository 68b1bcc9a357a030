"""Files packed so that the same contents always give the same bytes."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

EPOCH = (1980, 1, 1, 0, 0, 0)  # the first day that a zip can tell


def packed_folder(folder: Path, archive: Path) -> None:
    """Write every file of a folder into a zip, by name, without times or owners."""
    with ZipFile(archive, "w") as into:
        for file in files_of(folder):
            entry = ZipInfo(file.relative_to(folder).as_posix(), EPOCH)
            entry.compress_type, entry.external_attr = ZIP_DEFLATED, 0o644 << 16
            into.writestr(entry, file.read_bytes(), compresslevel=9)


def packed_file(raw: bytes) -> bytes:
    """Return bytes as gzip, without a time."""
    return gzip.compress(raw, 9, mtime=0)


def files_of(folder: Path) -> Iterator[Path]:
    """Yield every file below a folder, in the order of its names as a zip writes them."""
    yield from sorted(
        (file for file in folder.rglob("*") if file.is_file()),
        key=lambda file: file.relative_to(folder).as_posix(),
    )


def digest(raw: bytes) -> str:
    """Return the SHA-256 of bytes."""
    return sha256(raw).hexdigest()
