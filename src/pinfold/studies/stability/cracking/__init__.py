"""Cracks before they happen: what a wall wants to shorten, what holds it back, where it parts and how wide."""
