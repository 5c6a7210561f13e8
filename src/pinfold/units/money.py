"""Money as text, from the smallest coin."""

from __future__ import annotations

_CODES = (
    (0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"),
    (3, "BHD IQD JOD KWD LYD OMR TND"),
    (4, "CLF UYW"),
    (
        2,
        "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF "
        "CNY COP CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF "
        "IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR "
        "MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD "
        "SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VES WST XCD YER ZAR "
        "ZMW",
    ),
)
_DECIMALS = {code: decimals for decimals, codes in _CODES for code in codes.split()}
"""Decimals of currencies by ISO 4217, its list of codes, from memory."""


def decimals_of(currency: str, otherwise: int) -> int:
    """Decimals that a currency has by ISO 4217.

    Args:
        currency: its code, in letters of any size
        otherwise: where the code is not of that list
    """
    return _DECIMALS.get(currency.strip().upper(), otherwise)


def money(coins: int | None, currency: str, digits: int) -> str:
    """`USD 1 234.50`, unbroken at line ends; `not shown` where the amount is not known."""
    if coins is None:
        return "not shown"
    whole, part = divmod(abs(coins), 10**digits)
    sign = "-" if coins < 0 else ""
    grouped = f"{whole:,}".replace(",", "\u00a0")
    amount = f"{sign}{grouped}.{part:0{digits}d}" if digits else f"{sign}{grouped}"
    return f"{currency}\u00a0{amount}" if currency else amount
