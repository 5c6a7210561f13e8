"""Cracks: what a width means, and whether a crack moves."""
