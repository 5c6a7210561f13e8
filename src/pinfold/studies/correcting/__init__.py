"""Putting a batch right in the mixer, by what a pail of it weighs, how far it sinks, or what slipped."""
