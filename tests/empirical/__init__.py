"""Formulas whose constants carry units, a module per subject; each names the equation that carries them."""
