"""Trials: what they show together, and the next one worth making."""
