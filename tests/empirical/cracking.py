"""Shrinkage and cracks: formulas whose constants carry units."""

EMPIRICAL = {
    "cracking.aci209_factors": "γ with V/S and slump in mm, cement in kg/m3, curing in days",
    "cracking.share_dried_by_aci209": "t / (35 + t) with t in days",
    "cracking.share_dried_by_mc90": "√[t / (350 (V/S / 50)² + t)] with V/S in mm and t in days",
}
