"""Source that was compiled before, where Python keeps such copies, and only if it is of the very same bytes."""

import io
import marshal
import os
from contextlib import suppress
from importlib.util import MAGIC_NUMBER, cache_from_source, source_hash
from pathlib import Path
from sys import dont_write_bytecode
from types import CodeType

BY_HASH = (3).to_bytes(
    4, "little"
)  # in a copy's head: it counts for a source of that hash, whatever its date


def compiled(file: Path, source: bytes) -> CodeType:
    """Return the code of a source file: the copy beside it if there is one of these bytes, else compiled and kept.

    Args:
        file: where it stands.
        source: what stands in it.

    Raises:
        SyntaxError: it is no program.
        ValueError: it holds a NUL.
    """
    held = cache_from_source(str(file))
    head = MAGIC_NUMBER + BY_HASH + source_hash(source)
    code = _kept(held, head)
    if code is None or code.co_filename != str(file):  # the folder was moved: errors would name the old one
        code = compile(source, str(file), "exec")
        if not dont_write_bytecode:
            _keep(Path(held), head + marshal.dumps(code))
    return code


def _kept(held: str, head: bytes) -> CodeType | None:
    """Return the code of a copy, or None if there is none of that head."""
    with suppress(OSError, EOFError, ValueError, TypeError):
        with io.open_code(held) as file:
            raw = file.read()
        code = marshal.loads(memoryview(raw)[len(head) :]) if raw.startswith(head) else None  # noqa: S302 - as Python loads its own
        return code if isinstance(code, CodeType) else None
    return None


def _keep(held: Path, raw: bytes) -> None:
    """Put a copy in its place, whole or not at all; where nothing can be written, nothing is kept."""
    new = held.with_name(f"{held.name}.{os.getpid()}")
    with suppress(OSError):
        held.parent.mkdir(exist_ok=True)
        new.write_bytes(raw)
        new.replace(held)
