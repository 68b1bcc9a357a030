"""Runs of parts in series: the chain, each leg of a spread, what carries where a haul does not stay."""

from riglint.loadpath import IDLE, SPANNING, LoadPath, Placed

Run = tuple[Placed, ...]


def runs_of(path: LoadPath) -> list[Run]:
    """Return every run of one chain; a leg's run ends with the part that its spread is joined to."""
    chain = _carrying(path.parts)
    found = [chain]
    for n, placed in enumerate(chain):
        found += [(*_carrying(leg), *_joined_to(chain, n)) for leg in path.leg_runs(placed)]
        if placed.part.made_fast and not placed.part.stays:
            found.append(path.made_fast(placed))
    return found


def _carrying(parts: Run) -> Run:
    return tuple(one for one in parts if one.part.part not in IDLE)


def _joined_to(chain: Run, n: int) -> Run:
    """Return the part on the webbing's side of a spread of legs, where there is webbing."""
    webbing = [m for m, one in enumerate(chain) if one.part.part in SPANNING]
    if not webbing:
        return ()
    return chain[n + 1 : n + 2] if n < webbing[0] else chain[n - 1 : n]
