"""Numbers with units as riggers write them. tests/published/test_units.py checks the factors themselves."""

import pytest

from riglint.read.quantity import Dimension, QuantityError, parse_quantity, units_of


@pytest.mark.parametrize(
    ("text", "dimension", "si", "plus_minus"),
    [
        ("82 m", "length", 82.0, 0.0),
        ("82m", "length", 82.0, 0.0),
        ("  82 m ", "length", 82.0, 0.0),
        ("-1.2 m", "length", -1.2, 0.0),
        ("\u22121.2 m", "length", -1.2, 0.0),
        ("+1.2 m", "length", 1.2, 0.0),
        ("82\u00a0m", "length", 82.0, 0.0),
        ("82\u202fm", "length", 82.0, 0.0),
        ("82 m ± 0.5 m", "length", 82.0, 0.5),
        ("82 m +/- 0.5 m", "length", 82.0, 0.5),
        ("82m±50cm", "length", 82.0, 0.5),
        ("50 °F ± 9 °F", "temperature", 10.0, 5.0),
        ("2 t", "force_or_mass", 19613.3, 0.0),
        ("2 t", "mass", 2000.0, 0.0),
        ("3.5 %", "strain_or_ratio", 0.035, 0.0),
        ("3 lb / 100 ft", "mass_per_length", 3 * 0.45359237 / 30.48, 0.0),
        ("2 years", "duration", 2 * 365.25 * 86400, 0.0),
        ("20°", "angle", 0.3490658503988659, 0.0),
    ],
)
def test_read(text: str, dimension: Dimension, si: float, plus_minus: float) -> None:
    quantity = parse_quantity(text, dimension)
    assert quantity.si == pytest.approx(si, rel=1e-12)
    assert quantity.plus_minus == pytest.approx(plus_minus, rel=1e-12)
    assert quantity.text == text


@pytest.mark.parametrize("number", ["0.35", "0.823", "1.7", "74.5", "0.1"])
def test_the_same_length_in_other_units_is_the_same_number(number: str) -> None:
    """So a limit of 40 cm is met by 0.4 m, and the other way round."""
    millimetres = f"{float(number) * 1000:.0f}"
    centimetres = f"{float(number) * 100:.1f}"
    assert parse_quantity(f"{millimetres} mm", "length").si == float(number)
    assert parse_quantity(f"{centimetres} cm", "length").si == float(number)


def test_zero_has_no_sign() -> None:
    assert str(parse_quantity("-0 m", "length").si) == "0.0"


# text, dimension, a part of what was read, a part of what to write
REFUSED: list[tuple[str, Dimension, str, str]] = [
    ("82", "length", "'82' has no unit", "such as 82 m"),
    ("0", "force", "has no unit", "(kN, N, daN, lbf or kgf)"),
    ("82 ± 0.5 m", "length", "'82' has no unit", "Write 82 m ± 0.5 m."),
    ("82 ± 0.5 kg", "length", "'82' has no unit", "such as 82 m"),
    ("3 kn ± 1 kn", "force", "'kn' in '3 kn' is not a unit", "Write 3 kN ± 1 kN."),
    ("300 kg ± 5 kg", "force", "is a mass", "Write 2.942 kN ± 0.04903 kN if you mean the weight"),
    ("82 m ± 0.5", "length", "After the ±: '0.5' has no unit", "Write 82 m ± 0.5 m"),
    ("82 m ± 5 %", "length", "After the ±: '5 %' is a share", "such as 82 m"),
    ("82 m ± -1 m", "length", "sign follows the ±", "without a sign"),
    ("82 m ± 1 m ± 2 m", "length", "more than one ±", "such as"),
    ("82,5 m", "length", "decimal comma", "Write 82.5 m."),
    ("0,500 m", "length", "decimal comma", "Write 0.500 m."),
    ("82,5", "length", "decimal comma", "Write 82.5 with its unit."),
    ("1,000 kN", "force", "two ways", "1000 kN or 1.000 kN"),
    ("1,000,000 N", "force", "thousands", "Write 1000000 N."),
    ("1 000 kg", "mass", "thousands", "Write 1000 kg."),
    ("1'000 kg", "mass", "thousands", "Write 1000 kg."),
    ("1_000 kg", "mass", "thousands", "Write 1000 kg."),
    ("017 m", "length", "no zero leads", "Write 17 m."),
    ("1e3 m", "length", "exponents are not accepted", "Write 1000 m."),
    ("1e999 m", "length", "exponents are not accepted", "in full"),
    (".5 m", "length", "no digit before", "Write 0.5 m."),
    ("5. m", "length", "ends with its decimal point", "Write 5 m."),
    ("6 kN", "length", "'6 kN' is a force. Expected a length", "such as 82 m"),
    ("6 m", "force", "'6 m' is a length. Expected a force", "such as 6 kN"),
    ("600 kg", "force", "is a mass. Expected a force", "Write 5.884 kN"),
    ("22 g", "force_or_mass", "is a mass", "t, kg or lb"),
    ("6 KN", "force", "'KN' in '6 KN' is not a unit", "Write 6 kN."),
    ("6 kn", "force", "'kn'", "Write 6 kN."),
    ("6,5 KN", "force", "decimal comma", "Write 6.5 kN."),
    ("85 Kg", "mass", "'Kg'", "Write 85 kg."),
    ("82 M", "length", "'M'", "Write 82 m."),
    ("25 Mm", "length", "'Mm'", "Write 25 mm."),
    ("6 mN", "force", "'mN'", "(kN, N, daN, lbf or kgf)"),
    ("5 ton", "force_or_mass", "'ton'", "t, kg or lb"),
    ("180 lbs", "mass", "'lbs'", "Write 180 lb."),
    ("10 metres", "length", "'metres'", "Write 10 m."),
    ("20º", "angle", "'º'", "Write 20 °."),
    ("18 C", "temperature", "'C'", "Write 18 °C."),
    ("10 kn", "speed", "too much like kN", "Write 18.52 km/h."),
    ("10-12 m", "length", "not one number with one unit", "such as 82 m"),
    ("82 m 30 cm", "length", "not one number with one unit", "such as 82 m"),
    ("~80 m", "length", "does not begin with a number", "such as 82 m"),
    ("½ m", "length", "does not begin with a number", "such as 82 m"),
    ("\uff18\uff12 m", "length", "another script", "0 to 9"),
    ("nan m", "length", "does not begin with a number", "such as 82 m"),
    ("inf", "length", "does not begin with a number", "such as 82 m"),
    ("", "length", "does not begin with a number", "such as 82 m"),
    ("9" * 30 + " m", "length", "too long", "fewer digits"),
    ("82 m" + " " * 100 + "x", "length", "too long", "such as 82 m"),
]


@pytest.mark.parametrize(("text", "dimension", "part", "do"), REFUSED)
def test_refused(text: str, dimension: Dimension, part: str, do: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, dimension)
    assert part in caught.value.message
    assert do in caught.value.do


def test_no_unit_is_read_in_other_capitals() -> None:
    """One spelling of each unit is accepted: kN and not KN, m and not M."""
    dimensions: tuple[Dimension, ...] = (
        "length",
        "force",
        "mass",
        "pressure",
        "voltage",
        "speed",
        "duration",
    )
    for dimension in dimensions:
        accepted = units_of(dimension)
        for unit in accepted:
            for wrong in {unit.upper(), unit.lower(), unit.title()} - set(accepted):
                with pytest.raises(QuantityError):
                    parse_quantity(f"1 {wrong}", dimension)
