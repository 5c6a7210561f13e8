"""Plane geometry on plain coordinates in meters: outlines, bands, ground, spacing, stepping, clearances.

The only user of shapely; knows nothing of walls, plans or files.
"""
