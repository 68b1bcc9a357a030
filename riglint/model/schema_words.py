"""What the schemas say in words of a field and of a kind: its units, the keys that it needs and takes."""

from riglint.model.schema_values import Schema
from riglint.model.vocabulary import kinds
from riglint.read.quantity import units_of


def branches(raw: Schema) -> list[Schema]:
    """Return what a field takes beside null."""
    return [one for one in raw.get("anyOf", []) if one != {"type": "null"}]


def units_in_words(raw: Schema) -> str:
    """Return the units of a field in a sentence: of one quantity, of pairs or lists of them, of a table."""
    for one in [raw, *branches(raw)]:
        if "quantity" in one:
            band = f" {band_in_words(*one['band'])}" if "band" in one else ""
            return f"Units: {', '.join(units_of(one['quantity']))}; such as `{one['examples'][0]}`.{band}"
        if "table" in one:
            first, second = (", ".join(units_of(dimension)) for dimension in one["table"])
            return f"Units: {first} for the tension, {second} for the stretch."
        inner = next(iter(one.get("prefixItems", [])), one.get("items"))
        words = units_in_words(inner) if isinstance(inner, dict) else ""
        if words:
            return words
    return ""


def band_in_words(low: str, high: str | None) -> str:
    """Return between which values one must lie, in a sentence."""
    return f"From {low} to {high}." if high else f"More than {low}."


def keys_in_words(kind: kinds.Kind) -> str:
    """Return the keys that a kind needs and takes, in sentences."""
    optional = ", ".join(f"`{key}`" for key in sorted(kind.takes - kind.needs))
    needs = ", ".join(f"`{key}`" for key in sorted(kind.needs))
    words = [f"Needs {needs}." if needs else "", f"Takes {optional}." if optional else ""]
    return " ".join(one for one in words if one) or "Takes only the keys that all kinds share."
