"""Scenes in meters, and writers that know paper: SVG and DXF."""
