"""The accepted units, their factors to SI, and what people write for them by mistake.

Sources of the factors: International Bureau of Weights and Measures, The International System of Units (SI),
9th edition 2019 (standard gravity 9.80665 m/s² by the 3rd General Conference on Weights and Measures, 1901);
inch, foot, mile and pound by the international yard and pound agreement of 1959: 0.0254 m, 0.3048 m,
1609.344 m, 0.45359237 kg, all exact.
"""

import math
from typing import Literal, NamedTuple

Dimension = Literal[
    "length",
    "force",
    "mass",
    "mass_per_length",
    "strain_or_ratio",
    "angle",
    "speed",
    "temperature",
    "voltage",
    "pressure",
    "stiffness",
    "duration",
    "force_or_mass",
]

GRAVITY = 9.80665  # m/s², standard
POUND = 0.45359237  # kg


class Unit(NamedTuple):
    """SI = (number + offset) × times ÷ over. Dividing keeps `35 mm` and `0.035 m` the same number."""

    times: float
    over: float = 1.0
    offset: float = 0.0


_FORCE = {
    "kN": Unit(1000.0),
    "N": Unit(1.0),
    "daN": Unit(10.0),
    "lbf": Unit(POUND * GRAVITY),
    "kgf": Unit(GRAVITY),
}
_MONTH_D, _YEAR_D, _DAY_S = 30.4375, 365.25, 86400.0  # Julian year of 365.25 d and its twelfth

UNITS: dict[Dimension, dict[str, Unit]] = {
    "length": {
        "mm": Unit(1.0, 1000.0),
        "cm": Unit(1.0, 100.0),
        "m": Unit(1.0),
        "km": Unit(1000.0),
        "in": Unit(254.0, 10000.0),
        "ft": Unit(3048.0, 10000.0),
    },
    "force": _FORCE,
    "mass": {"kg": Unit(1.0), "g": Unit(1.0, 1000.0), "t": Unit(1000.0), "lb": Unit(POUND)},
    "mass_per_length": {
        "g/m": Unit(1.0, 1000.0),
        "kg/m": Unit(1.0),
        "lb/100 ft": Unit(POUND, 30.48),
    },
    "strain_or_ratio": {"%": Unit(1.0, 100.0)},
    "angle": {"deg": Unit(math.pi, 180.0), "°": Unit(math.pi, 180.0), "rad": Unit(1.0)},
    "speed": {"km/h": Unit(1.0, 3.6), "m/s": Unit(1.0), "mph": Unit(1609.344, 3600.0)},
    "temperature": {"°C": Unit(1.0), "°F": Unit(5.0, 9.0, -32.0)},
    "voltage": {"kV": Unit(1000.0), "V": Unit(1.0)},
    "pressure": {"MPa": Unit(1e6), "kPa": Unit(1000.0)},
    "stiffness": {"kN/m": Unit(1000.0), "N/m": Unit(1.0)},
    "duration": {
        "d": Unit(_DAY_S),
        "h": Unit(3600.0),
        "min": Unit(60.0),
        "s": Unit(1.0),
        "month": Unit(_MONTH_D * _DAY_S),
        "months": Unit(_MONTH_D * _DAY_S),
        "year": Unit(_YEAR_D * _DAY_S),
        "years": Unit(_YEAR_D * _DAY_S),
    },
    # A rated load is printed as a mass and means the weight of that mass. Grams are left out: nobody rates in
    # grams, and `22 g` is more likely a slip of the hand.
    "force_or_mass": {
        **_FORCE,
        "t": Unit(1000.0 * GRAVITY),
        "kg": Unit(GRAVITY),
        "lb": Unit(POUND * GRAVITY),
    },
}

NAMES: dict[Dimension, tuple[str, str]] = {
    "length": ("a length", "82 m"),
    "force": ("a force", "6 kN"),
    "mass": ("a mass", "85 kg"),
    "mass_per_length": ("a mass per length", "58 g/m"),
    "strain_or_ratio": ("a share in percent", "3.5 %"),
    "angle": ("an angle", "20 deg"),
    "speed": ("a speed", "15 km/h"),
    "temperature": ("a temperature", "18 °C"),
    "voltage": ("a voltage", "20 kV"),
    "pressure": ("a pressure", "45 MPa"),
    "stiffness": ("a stiffness", "130 kN/m"),
    "duration": ("a duration", "7.9 s"),
    "force_or_mass": ("a strength (a force, or a mass for its weight)", "42 kN"),
}

# What people write for a unit, where difference in letters alone does not lead to it. `ton` is not here: it
# is 907 kg, 1000 kg or 1016 kg.
MEANT = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "inch": "in", "inches": "in", "″": "in",
    '"': "in", "foot": "ft", "feet": "ft", "'": "ft", "′": "ft", "kilo": "kg", "kilos": "kg", "kgs": "kg",
    "tonne": "t", "tonnes": "t", "lbs": "lb", "pound": "lb", "pounds": "lb", "percent": "%", "％": "%",
    "degree": "deg", "degrees": "deg", "º": "°", "c": "°C", "f": "°F", "ºc": "°C", "ºf": "°F", "℃": "°C",
    "℉": "°F", "degc": "°C", "kph": "km/h", "kmh": "km/h", "kmph": "km/h", "day": "d", "days": "d",
    "hour": "h", "hours": "h", "hr": "h", "minute": "min", "minutes": "min", "sec": "s", "second": "s",
    "seconds": "s", "mo": "month", "yr": "year", "y": "year", "newton": "N", "kilonewton": "kN",
    "lbs/100 ft": "lb/100 ft", "mtr": "m", "mtrs": "m", "millimetre": "mm", "millimeter": "mm",
    "millimetres": "mm", "millimeters": "mm", "mms": "mm", "centimetre": "cm", "centimeter": "cm",
    "centimetres": "cm", "centimeters": "cm", "cms": "cm", "kilometre": "km", "kilometer": "km",
    "kilometres": "km", "kilometers": "km", "gr/m": "g/m", "gram/m": "g/m", "pct": "%", "per cent": "%",
    "km/hr": "km/h", "degs": "deg", "kns": "kN",
}  # fmt: skip
