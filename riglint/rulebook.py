"""The rulebook: finds rule files, loads each set whole or stops.

Rules are loaded by path and never imported by name: what runs is what stands in the folder. What should stand there is
in a manifest beside them, the hash of each file; an installation that differs from it judges nothing.
"""

import io
import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path
from types import ModuleType
from typing import get_args

from riglint.model.vocabulary.words import Consequence
from riglint.read.compiled import compiled
from riglint.records import dataclass
from riglint.rulekit import Limit, Rule, Signal

PACKAGE = Path(__file__).parent
OWN_PACKAGE = "riglint.rules"
MANIFEST = "manifest.txt"
SEAL_DIGITS = 12  # of the hash of a whole book, as reports carry it
MOST_NAMED = 5  # rules that differ from the manifest


class RuleSetError(Exception):
    """A rule set did not load whole, so that nothing may be judged with it."""


@dataclass(frozen=True, slots=True)
class RuleSet:
    """A folder of rules beside our own; the ids of its rules begin with its name."""

    name: str
    folder: Path


@dataclass(frozen=True, slots=True)
class BrokenSet:
    """A rule set that was asked for and did not load whole: its questions stay unanswered."""

    name: str
    because: str


@dataclass(frozen=True, slots=True)
class Rulebook:
    """The rules in force, by id, and the sets that should be among them and are not."""

    rules: dict[str, Rule]
    house: tuple[str, ...] = ()  # names of the sets beside our own
    broken: tuple[BrokenSet, ...] = ()
    seal: str = "0" * SEAL_DIGITS  # the beginning of a hash of all its files; zeros for a book made by hand
    sets: tuple[RuleSet, ...] = ()  # where those of the house stand
    differs: str = ""  # how a checkout under development differs from its manifest, in words

    @property
    def can_be_sent(self) -> bool:
        """Whether workers can load the same rules: a book that a program has made by hand stands in no files."""
        return self.seal != "0" * SEAL_DIGITS and len(self.sets) == len(self.house)

    @property
    def explaining(self) -> frozenset[str]:
        """The rules that tell in full why a rig cannot be computed."""
        return frozenset(name for name, rule in self.rules.items() if rule.explains)


def shipped(name: str) -> Path:
    """Return the folder of that name that came with riglint: inside the package, or beside it in a checkout.

    Raises:
        RuleSetError: it is not there.
    """
    inside, beside = PACKAGE / name, PACKAGE.parent / name
    if inside.is_dir():
        return inside
    # Only beside our own project file: a stranger's folder of that name is never taken.
    if beside.is_dir() and (PACKAGE.parent / "pyproject.toml").is_file():
        return beside
    raise RuleSetError(f"The installation is damaged (folder `{name}` is missing). Reinstall riglint.")


def load_rulebook(*house: RuleSet) -> Rulebook:
    """Return the rules that came with riglint, and those of other sets after them.

    A set of somebody else that does not load whole is left out whole and named: it hides no finding of the others.

    Raises:
        RuleSetError: a rule file of riglint's own does not load, holds no rule or several, or is not as it came.
    """
    folder = shipped("rules")
    files = rule_files(folder)
    sealed = hashes(files)
    differs = difference(folder, sealed)
    if differs and not _under_development(folder):
        raise RuleSetError(f"The installation is damaged ({differs}). Reinstall riglint.")
    rules = dict(_loaded(folder, files, OWN_PACKAGE))
    broken: list[BrokenSet] = []
    for one in house:
        try:
            _no_stray_file(one.folder)
            files = rule_files(one.folder)
            found = list(_loaded(one.folder, files, f"riglint.house.{one.name}"))
        except RuleSetError as error:
            broken.append(BrokenSet(one.name, str(error)))
        else:
            rules |= {f"{one.name}/{rule_id}": rule for rule_id, rule in found}
            sealed |= {f"{one.name}/{rule_id}": text for rule_id, text in hashes(files).items()}
    seal = sha256(manifest(sealed).encode()).hexdigest()[:SEAL_DIGITS]
    return Rulebook(rules, tuple(one.name for one in house), tuple(broken), seal, house, differs)


# What a set should hold


def rule_files(folder: Path) -> dict[str, bytes]:
    """Return the source of every rule file below a rules folder, by id.

    Raises:
        RuleSetError: one cannot be read, or there is none.
    """
    found: dict[str, bytes] = {}
    try:
        with os.scandir(folder) as families:
            names = [family.name for family in families if family.is_dir()]
        for family in names:
            found |= _family_files(folder, family)
    except OSError as error:
        raise RuleSetError(f"The rule set '{folder.name}' cannot be read: {error.strerror}.") from error
    if not found:
        raise RuleSetError(f"The rule set '{folder.name}' is empty: no file <family>/<rule>.py stands in it.")
    return dict(sorted(found.items()))


def _family_files(folder: Path, family: str) -> dict[str, bytes]:
    """Return the source of every rule file of a family, by id: by names, since a path for each takes longer to make."""
    place, found = os.path.join(folder, family), dict[str, bytes]()  # noqa: PTH118
    for name in os.listdir(place):  # noqa: PTH208
        if name.endswith(".py") and name != "__init__.py":
            with io.open_code(os.path.join(place, name)) as file:  # noqa: PTH118
                found[f"{family}/{name.removesuffix('.py')}"] = file.read()
    return found


def hashes(files: Mapping[str, bytes]) -> dict[str, str]:
    """Return the SHA-256 of each rule file, whatever the line ends of this system."""
    return {name: sha256(source.replace(b"\r\n", b"\n")).hexdigest() for name, source in files.items()}


def manifest(found: Mapping[str, str]) -> str:
    """Return hashes by id as the text of a manifest."""
    return "".join(f"{found[name]}  {name}\n" for name in sorted(found))


def difference(folder: Path, found: Mapping[str, str]) -> str:
    """Say how rule files differ from the manifest beside them; empty if they do not."""
    try:
        rows = (folder / MANIFEST).read_text(encoding="utf-8").splitlines()
        meant = {name: text for text, _, name in (row.partition("  ") for row in rows)}
    except (OSError, ValueError):
        return f"the manifest of the rules ({MANIFEST}) is missing or cannot be read"
    changed = [name for name in meant.keys() & found.keys() if meant[name] != found[name]]
    said = [
        _named("missing", meant.keys() - found.keys()),
        _named("changed", changed),
        _named("not in the manifest", found.keys() - meant.keys()),
    ]
    return "; ".join(filter(None, said))


def _named(what: str, names: Iterable[str]) -> str:
    first = sorted(names)
    listed = ", ".join(first[:MOST_NAMED]) + (
        f" and {len(first) - MOST_NAMED} more" * (len(first) > MOST_NAMED)
    )
    return f"rules {what}: {listed}" if first else ""


def _under_development(folder: Path) -> bool:
    """Whether a rules folder is that of a git checkout of riglint, where people change rules."""
    return folder == PACKAGE.parent / "rules" and (PACKAGE.parent / ".git").exists()


def _no_stray_file(folder: Path) -> None:
    """Refuse a set with a file that would never run: whoever wrote it believes that it does.

    Raises:
        RuleSetError: a Python file stands elsewhere than in a family's folder.
    """
    for file in sorted(folder.rglob("*.py")):
        way = file.relative_to(folder)
        if file.name != "__init__.py" and len(way.parts) != len(("family", "rule.py")):
            raise RuleSetError(
                f"The rule set '{folder.name}' holds {way.as_posix()}, which would not run: "
                "a rule stands in a family's folder, such as tail/webbing.py."
            )


def load_folder(folder: Path, package: str) -> Iterator[tuple[str, Rule]]:
    """Yield id and rule of every file below a rules folder.

    Raises:
        RuleSetError: a file does not load, holds no rule or several, or the folder is empty.
    """
    yield from _loaded(folder, rule_files(folder), package)


def _loaded(folder: Path, files: Mapping[str, bytes], package: str) -> Iterator[tuple[str, Rule]]:
    _open_package(folder, package)
    for rule_id, source in files.items():
        family, _, slug = rule_id.partition("/")
        if f"{package}.{family}" not in sys.modules:
            _open_package(folder / family, f"{package}.{family}")
        file = folder / family / f"{slug}.py"
        yield rule_id, _rule_in(_module(file, source, f"{package}.{family}.{slug}"))


def _open_package(folder: Path, name: str) -> None:
    module = ModuleType(name)
    module.__path__ = [str(folder)]
    sys.modules[name] = module


def _module(file: Path, source: bytes, name: str) -> ModuleType:
    """Run a rule file: the very bytes that were hashed, or what was compiled of them."""
    module = ModuleType(name)
    module.__file__ = str(file)
    sys.modules[name] = module
    try:
        code = compiled(file, source) if name.startswith(f"{OWN_PACKAGE}.") else compile(source, file, "exec")
        exec(code, vars(module))  # noqa: S102 - a rule is a program
    except BaseException as error:  # a file that ends the program must not end the audit
        if isinstance(error, KeyboardInterrupt):
            raise
        message = (
            f"The rule file {file.parent.name}/{file.name} does not load: {type(error).__name__}: {error}"
        )
        raise RuleSetError(message) from error
    return module


def _rule_in(module: ModuleType) -> Rule:
    rules = [value for value in vars(module).values() if isinstance(value, Rule)]
    name = "/".join(module.__name__.split(".")[-2:])
    if len(rules) != 1:
        raise RuleSetError(f"The rule file {name}.py holds {len(rules)} rules; it must hold one.")
    wrong = _wrong(rules[0])
    if wrong:
        raise RuleSetError(f"The rule file {name}.py holds no whole rule: {wrong}.")
    return rules[0]


def _wrong(rule: Rule) -> str:
    """Say what of a rule could not be judged by; its file is a program and may write anything there."""
    words: tuple[object, ...] = (rule.signal, rule.worst, *(word for _, word in rule.raised))
    if not all(isinstance(word, Signal) for word in words):
        return "a signal word is none of the four"
    if {name for name, _ in rule.raised} - set(get_args(Consequence)):
        return "it raises its word for a consequence class that there is not"
    texts: tuple[object, ...] = (rule.title, rule.why, rule.formula)
    if not all(isinstance(text, str) and text.strip() for text in texts):
        return "title, why or formula says nothing"
    runs: tuple[object, ...] = (rule.check, getattr(rule.each, "of", None))
    if not all(callable(one) for one in runs):
        return "there is nothing to run, or no subjects to run it on"
    limits: tuple[object, ...] = rule.limits
    if not all(isinstance(limit, Limit) for limit in limits):
        return "a limit is none"
    return ""
