"""Plane geometry on plain coordinates in meters: outlines, ground, spacing, stepping, clearances; the only user of shapely."""
