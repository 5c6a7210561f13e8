"""What walls are founded on: width, thickness and steps of the footing, wet ground, frost by the winter given."""
