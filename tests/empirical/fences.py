"""Posts, anchors and wood: formulas whose constants carry units."""

EMPIRICAL = {
    "anchors.bent_anchor_held": "B = 0.6 f'm e d + 120 π (l + e + d) d, in pounds and inches",
    "anchors.breakout_held": "B = k A √f'm, in pounds and inches",
    "anchors.crushing_held": "B = 350 (f'm A)^(1/4), in pounds and inches",
    "wood.nail_withdrawal": "W = 1380 G^2.5 D, in pounds per inch",
    "wood.timber_size_factor": "CF = (12 in / d)^(1/9)",
    "wood.wet_factor": "CM changes at 1150 psi",
}
