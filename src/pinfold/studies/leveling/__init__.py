"""Leveling of what stands on blocks: readings into heights, tilt and twist, least moves, jacking, settlement."""
