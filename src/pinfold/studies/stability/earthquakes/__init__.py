"""Earthquakes, for those who must: walls shaken by their own weight."""
