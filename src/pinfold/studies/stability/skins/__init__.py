"""Coats as skins of a wall: what they add to its strength, and what their own drying takes away."""
