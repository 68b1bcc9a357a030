"""Libraries of many different rigs, the same for the same seed: clubs with their own shelves, spots and rigs."""

import random
import re
from pathlib import Path
from shutil import copytree

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples" / "ordinary"
MARK = "rig-library"
TENSION = re.compile(r"(standing_tension: )([\d.]+) kN")
MASS = re.compile(r"(mass: )([\d.]+) kg")
TITLE = re.compile(r"(?m)^(title: .*)$")
SEED = 18


def write_library(folder: Path, rigs: int, seed: int = SEED) -> list[Path]:
    """Write a library of so many rigs, no two alike, and return their files.

    Each club has the rigs of `examples/ordinary` once, at tensions and with people of its own.
    """
    chance = random.Random(seed)  # noqa: S311 - for variety, not for secrets
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MARK).write_bytes((CLUB / MARK).read_bytes())
    kinds = sorted((CLUB / "rigs").glob("*.yaml"))
    written: list[Path] = []
    for n in range(rigs):
        number, kind = divmod(n, len(kinds))
        club = folder / f"club-{number:04}"
        if not kind:
            for name in ("shelf", "spots"):
                copytree(CLUB / name, club / name)
            for spot in (club / "spots").glob("*.yaml"):  # a place has one title, and stands in one file
                spot.write_text(
                    TITLE.sub(rf"\g<1>, place {number + 1}", spot.read_text("utf-8"), count=1), "utf-8"
                )
            (club / "rigs").mkdir()
        file = club / "rigs" / kinds[kind].name
        file.write_text(another(kinds[kind].read_text("utf-8"), n, chance), "utf-8")
        written.append(file)
    return written


def all_read(library: Path) -> list[str]:
    """Return the files that an audit of a library reads: its rigs, gear lists and spots."""
    return [str(file) for file in sorted(library.rglob("*.yaml"))]


def another(text: str, number: int, chance: random.Random) -> str:
    """Return a rig that differs from every other in its title, and from most in its tension and its people."""
    text = TITLE.sub(rf"\g<1>, line {number + 1}", text, count=1)
    text = TENSION.sub(lambda found: f"{found[1]}{float(found[2]) * chance.uniform(0.9, 1.2):.2f} kN", text)
    return MASS.sub(lambda found: f"{found[1]}{float(found[2]) * chance.uniform(0.9, 1.1):.0f} kg", text)
