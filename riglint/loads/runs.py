"""Runs of parts in series: the chain, each leg of a spread, what carries where a haul does not stay."""

from dataclasses import replace

from riglint.loadpath import SPANNING, LoadPath, Placed, place

Run = tuple[Placed, ...]


def runs_of(path: LoadPath) -> list[Run]:
    """Return every run of one chain; a leg's run ends with the part that its spread is joined to."""
    chain = tuple(one for one in path.parts if one.part.part not in {"anchor", "protector"})
    found = [chain]
    for n, placed in enumerate(chain):
        for m, leg in enumerate(placed.part.legs or []):
            inner = place(path.rig, (*placed.key, "legs", m, "chain"), leg.chain)
            named = (
                replace(one, id=leg.chain[k].id or f"{placed.id}.legs[{m}][{k}]")
                for k, one in enumerate(inner)
            )
            found.append((*named, *_joined_to(chain, n)))
        if placed.part.made_fast and not placed.part.stays:
            found.append(place(path.rig, (*placed.key, "made_fast"), placed.part.made_fast))
    return found


def _joined_to(chain: Run, n: int) -> Run:
    """Return the part on the webbing's side of a spread of legs, where there is webbing."""
    webbing = [m for m, one in enumerate(chain) if one.part.part in SPANNING]
    if not webbing:
        return ()
    return chain[n + 1 : n + 2] if n < webbing[0] else chain[n - 1 : n]
