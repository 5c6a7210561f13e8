"""Walls that meet at a corner: how much the one around it helps the panel next to it to stand."""
