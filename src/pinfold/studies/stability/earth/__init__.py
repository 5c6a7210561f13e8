"""Walls that hold earth: where the ground or a raised bed stands higher on one face."""
