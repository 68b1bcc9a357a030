"""Notes whatever a call looks at: every file opened, every name asked for, every folder listed, every link followed.

The interpreter itself tells of what is opened and listed (`sys.addaudithook`, PEP 578). It does not tell of names that
are only asked for, so the functions of `os` that ask are replaced by ones that note it. A call that does anything
else, such as writing a file or starting a program, is not remembered.
"""

from __future__ import annotations

import os
import sys
from time import time_ns

from riglint.remembered.looks import Look, NoTellingError, digest, refused, seen

TYPE_CHECKING = False  # as typing has it
if TYPE_CHECKING:
    from collections.abc import Callable, Collection
    from types import TracebackType
    from typing import Any

CODE = (b".py",)
COMPILED = (b".pyc", b".so", b".pth")  # of a module: what it was compiled from is noted, or the module itself
COMPILED_FOLDER = b"__pycache__"
WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
# What an answer must not rest on, or must not do, to be given again. Each is the beginning of an event's name.
NEVER = (
    "socket.",
    "subprocess.",
    "shutil.",
    "tempfile.",
    "os.chdir",
    "os.chmod",
    "os.exec",
    "os.fchdir",
    "os.fork",
    "os.link",
    "os.mkdir",
    "os.posix_spawn",
    "os.remove",
    "os.rename",
    "os.rmdir",
    "os.spawn",
    "os.symlink",
    "os.system",
    "os.truncate",
    "os.utime",
    "urllib.",
)

Looks = dict[Look, bytes]  # and what was seen
UNSEEN: Look = (b"unseen", b"")  # in a part that rests on what was not watched


class Watch:
    """What a call has looked at so far."""

    def __init__(self) -> None:
        self.looks: Looks = {}
        self.began_ns = time_ns()
        self.spoilt = ""  # why nothing is to be kept; empty where nothing stands against it
        self.taken_out: list[bytes] = []  # folders of this call's own, whose content another look tells of
        self.program: bytes | None = (
            None  # a hash of all its files, once somebody asked; empty is not to be relied on
        )
        self._aside = 0  # while our own looks are not to be noted
        self._parts: list[Looks] = []  # of the call, one in another

    def note(self, kind: bytes, name: bytes, what: bytes) -> None:
        """Note what was seen; something that changes under a call spoils what it answers."""
        if self._aside:
            return
        for part in self._parts:
            part[kind, name] = what
        if self.looks.setdefault((kind, name), what) != what:
            self.spoil(f"{os.fsdecode(name)} changed meanwhile")

    def told(self, kind: bytes, name: bytes, what: bytes) -> None:
        """Note what was told; where nothing is noted it would be lost, and an answer would rest on too little."""
        if self._aside:
            self.spoilt = self.spoilt or "something is told of where nothing is noted"
        self.note(kind, name, what)

    def spoil(self, because: str) -> None:
        """Let nothing of this call be kept."""
        if not self._aside:
            self.spoilt = self.spoilt or because

    def lasting(self) -> Looks:
        """Return all that was looked at but the folders of this call's own."""
        return {
            one: what
            for one, what in self.looks.items()
            if not any(_below(one[1], own) for own in self.taken_out)
        }

    def begin_part(self) -> Looks:
        """Note what is looked at from now on as a part of the call as well."""
        self._parts.append({})
        return self._parts[-1]

    def end_part(self) -> None:
        """End the part that was begun last."""
        self._parts.pop()

    def spoil_parts(self) -> None:
        """Let nothing of the parts be kept that were begun: they rest on what was not watched."""
        for part in self._parts:
            part[UNSEEN] = b""

    def lacks(self, looks: Looks | None) -> bool:
        """Whether a part that goes on now does not hold what was looked at before, or nobody knows what that was."""
        return not self._aside and (looks is None or bool(self._parts))

    def look(self, kind: bytes, name: bytes) -> None:
        """Look at something, and note it."""
        if self._aside:
            return
        if (kind, name) in self.looks:
            self.note(kind, name, self.looks[kind, name])
            return
        with self:
            try:
                what = seen(kind, name)
            except NoTellingError:
                what = b""
        if what:
            self.note(kind, name, what)
        else:
            self.spoil(f"{os.fsdecode(name)} cannot be compared")

    def __enter__(self) -> None:
        """Note nothing in the block."""
        self._aside += 1

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Note again."""
        self._aside -= 1

    # What the interpreter tells

    def event(self, name: str, given: tuple[Any, ...]) -> None:
        """Note an event of the interpreter."""
        if name == "open":
            self._opened(*given)
        elif name in {"os.listdir", "os.scandir"}:
            self._listed(given[0])
        elif name.startswith(NEVER) and not self._aside and not _compiling(given):
            self.spoil(name)

    def _opened(self, path: Any, mode: str | None, flags: int) -> None:
        if self._aside or isinstance(path, int) or path == os.devnull:
            return
        name = os.fsencode(path)
        if flags & WRITING or (mode is not None and set(mode) & set("wax+")):
            if COMPILED_FOLDER not in name:
                self.spoil(f"{os.fsdecode(name)} is written")
        elif name.endswith(CODE):
            self.look(b"code", name)
        elif not name.endswith(COMPILED):
            self.look(b"content", name)

    def _listed(self, folder: Any) -> None:
        if isinstance(folder, int):
            self.spoil("a folder is listed by its number")
        else:
            self.look(b"names", os.fsencode(folder if folder is not None else os.curdir))


def _compiling(given: tuple[Any, ...]) -> bool:
    """Whether Python keeps a compiled module."""
    return bool(given) and isinstance(given[0], (str, bytes)) and COMPILED_FOLDER in os.fsencode(given[0])


current: Watch | None = None  # of this process; there is one call in it


def begin() -> Watch:
    """Watch all that this process looks at from now on, to its end."""
    global current  # noqa: PLW0603 - a hook of the interpreter stays for good as well
    current = watch = Watch()
    os.stat = _noting(watch, os.stat, b"there", b"itself")
    os.lstat = _noting(watch, os.lstat, b"itself", b"itself")
    os.readlink = _noting(watch, os.readlink, b"link", b"link")
    os.access = _spoiling(watch, os.access)
    sys.addaudithook(watch.event)
    return watch


def _noting(watch: Watch, ask: Callable[..., Any], kind: bytes, of_link: bytes) -> Callable[..., Any]:
    """Return a function of `os` that also notes its answer."""

    def asked(path: Any, *given: Any, **named: Any) -> Any:
        if given or named.get("dir_fd") is not None:
            watch.spoil("a name is asked for in another folder")
        if isinstance(path, int):
            return ask(path, *given, **named)
        which = kind if named.get("follow_symlinks", True) else of_link
        try:
            answer = ask(path, *given, **named)
        except OSError as error:
            watch.note(which, os.fsencode(path), refused(error))
            raise
        told = os.fsencode(answer) if which == b"link" else b"%d" % answer.st_mode
        watch.note(which, os.fsencode(path), told)
        return answer

    return asked


def _spoiling(watch: Watch, ask: Callable[..., Any]) -> Callable[..., Any]:
    def asked(*given: Any, **named: Any) -> Any:
        watch.spoil("rights are asked for")
        return ask(*given, **named)

    return asked


# What the program tells


class _Nothing:
    """Stands in for a watch where nothing is watched."""

    def __enter__(self) -> None:
        pass

    def __exit__(self, *_: object) -> None:
        pass


_nothing = _Nothing()


def aside() -> Watch | _Nothing:
    """Give a block in which nothing is noted: what happens in it is told of by `tell` instead."""
    return current if current is not None else _nothing


def part() -> Looks | None:
    """Begin a part of what is watched; None where nothing is."""
    return current.begin_part() if current is not None else None


def part_ends() -> None:
    """End the part that was begun last."""
    if current is not None:
        current.end_part()


def again(looks: Looks | None) -> None:
    """Note for what goes on now what was looked at before, and not again since it is held; None is not known."""
    if current is not None and looks is None:
        current.spoil_parts()
    elif current is not None and looks:
        for (kind, name), what in looks.items():
            current.note(kind, name, what)


def take_out(folder: bytes) -> None:
    """Take note of a folder that this call makes and deletes; what its content rests on is told of by `tell`."""
    if current is not None:
        current.taken_out.append(folder)


def looked_at(folder: bytes) -> set[bytes] | None:
    """Return the names below a folder that were looked at; None where not all are known, or a folder was listed."""
    if current is None or current.spoilt:
        return None
    looks = [(kind, name) for kind, name in current.looks if _below(name, folder)]
    return (
        None if any(kind == b"names" for kind, _ in looks) else {os.path.normpath(name) for _, name in looks}
    )


def forget(names: Collection[bytes]) -> None:
    """Forget what was seen of some files of this call's own: they are being made."""
    if current is not None:
        for one in [one for one in current.looks if os.path.normpath(one[1]) in names]:
            del current.looks[one]


def _below(name: bytes, folder: bytes) -> bool:
    return name.startswith(folder) and name[len(folder) : len(folder) + 1] in {
        b"",
        b"/",
        b"\n",
    }  # git's answers name two folders


def tell(kind: bytes, name: bytes, *answer: bytes) -> None:
    """Note what another program answered."""
    if current is not None:
        current.told(kind, name, digest(*answer))
