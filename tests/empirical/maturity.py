"""Formulas of maturity whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "maturity.age_by_arrhenius": "5000 K over temperatures above absolute zero",
}
