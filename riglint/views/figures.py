"""Numbers as people write them, the same in every document."""


def number(value: float | str | None, digits: int = 3) -> str:
    """Return a number as people write it: three significant digits, no exponent."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    if value == float("inf"):
        return "never"
    text = f"{value:.{digits}g}"
    if "e" in text:
        text = f"{float(text):.0f}"
    return text


def fixed(value: float | None, digits: int = 2) -> str:
    """Return a number with so many digits after the point; a dash where there is none."""
    if value is None:
        return "–"
    if value == float("inf"):
        return "never"
    text = f"{value:.{digits}f}"
    return text[1:] if text.startswith("-") and float(text) == 0.0 else text


def kn(value_n: float | None, digits: int = 2) -> str:
    """Return a force in kN without the unit."""
    return fixed(None if value_n is None else value_n / 1000.0, digits)


def put(value: float, digits: int = 2) -> str:
    """Return a number as it stands inside a formula, in brackets where it is below 0."""
    text = fixed(value, digits)
    return f"({text})" if text.startswith("-") else text
