"""Units as weather files spell them, and winds by their letters."""

from __future__ import annotations

from pinfold.units import SPELLINGS, UNIT_BY_SYMBOL

_OWN = {
    "mp/h": "mph", "kts": "kn", "mb": "hPa", "millibar": "hPa", "celsius": "°C", "fahrenheit": "°F", "º": "deg",
    "ºC": "°C", "ºF": "°F", "°c": "°C", "°f": "°F", "c": "°C", "f": "°F", "Wh/m2": "W/m2", "Wh/m²": "W/m2",
    "W/m^2": "W/m2", "km_h-1": "km/h", "m_s-1": "m/s", "degree_(angle)": "deg", "degree_angle": "deg", "pct": "%",
}  # fmt: skip
WINDS = ("N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW")
"""Where wind comes from, a sixteenth of the circle each."""


def symbol_of(spelled: str) -> str | None:
    """Symbol of the closed list for a unit as spelled; None for one that is not known."""
    text = spelled.strip().removeprefix("wmoUnit:").removeprefix("unit:")
    for word in (text, text.lower()):
        for table in (_OWN, SPELLINGS):
            if word in table:
                return table[word]
        if word in UNIT_BY_SYMBOL:
            return word
    return None


def degrees_of(letters: str) -> float | None:
    """Direction of a wind by its letters, in degrees from north; None for none."""
    word = letters.strip().upper()
    return WINDS.index(word) * 22.5 if word in WINDS else None
