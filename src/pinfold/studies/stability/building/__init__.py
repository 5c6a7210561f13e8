"""Walls while they are built."""
