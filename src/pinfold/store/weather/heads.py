"""How columns of hours may be called in a table, and what each is of."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.plan.weather_file import Element

NAMES: Mapping[Element, tuple[str, ...]] = {
    Element.TEMPERATURE: ("air temperature", "temperature", "dry bulb", "dry bulb temperature", "air"),
    Element.HUMIDITY: ("humidity", "relative humidity", "rh", "rhum"),
    Element.DEW_POINT: ("dew point", "dewpoint", "dew point temperature"),
    Element.PRESSURE: ("pressure", "station pressure", "air pressure"),
    Element.WIND: ("wind", "wind speed", "wspd"),
    Element.WIND_FROM: ("wind direction", "wind from", "wdir"),
    Element.GLOBAL: ("sun and sky on the level", "ghi", "global horizontal irradiance"),
    Element.BEAM: ("sun straight on", "dni", "direct normal irradiance"),
    Element.DIFFUSE: ("sky on the level", "dhi", "diffuse horizontal irradiance"),
    Element.SKY_HEAT: ("heat from the sky", "sky infrared"),
    Element.CLOUD: ("cloud", "clouds", "cloud cover", "totcld"),
    Element.RAIN: ("rain", "precipitation"),
    Element.RAIN_CHANCE: ("chance of rain", "rain chance", "precipitation probability"),
}
"""The first name of each is the one told in the guide."""
ELEMENT_OF: Mapping[str, Element] = {name: element for element, names in NAMES.items() for name in names}
TIMES = ("time", "date and time", "datetime", "timestamp", "date time", "hour beginning")
ENDINGS = ("hour ending", "time ending", "end of hour")
"""Heads of times that are the end of their hour."""
SKY = ("sky", "sky words", "forecast", "conditions")
EXAMPLES: Mapping[Element, str] = {
    Element.TEMPERATURE: "air temperature (C)", Element.HUMIDITY: "humidity (%)", Element.DEW_POINT: "dew point (C)",
    Element.PRESSURE: "pressure (hPa)", Element.WIND: "wind (km/h)", Element.WIND_FROM: "wind direction (deg)",
    Element.GLOBAL: "sun and sky on the level (W/m2)", Element.BEAM: "sun straight on (W/m2)",
    Element.DIFFUSE: "sky on the level (W/m2)", Element.SKY_HEAT: "heat from the sky (W/m2)",
    Element.CLOUD: "cloud (%)", Element.RAIN: "rain (mm)", Element.RAIN_CHANCE: "chance of rain (%)",
}  # fmt: skip
"""How a head is written with its unit."""
