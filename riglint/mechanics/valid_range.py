"""How a mechanics function refuses a number: outside its validity range it raises, it never clamps."""

STANDARD_GRAVITY_M_S2 = 9.80665  # exact by definition (3rd CGPM, 1901)
LARGEST_FORCE_N = 1e6  # far above any rig; a larger number is a slipped unit


def require_within(what: str, value: float, low: float, high: float) -> None:
    """Raise ValueError unless `low` ≤ `value` ≤ `high`; not-a-number fails too. Units are the caller's.

    >>> require_within("sheave efficiency", 0.92, 0.1, 1.0)
    """
    if not low <= value <= high:
        raise ValueError(f"{what} is {value:g}; valid is {low:g} to {high:g}")


def require_force(what: str, value_n: float) -> None:
    """Raise ValueError unless the force (N) lies between 0 and 1 MN.

    >>> require_force("line tension", 6000.0)
    """
    require_within(what, value_n, 0.0, LARGEST_FORCE_N)
