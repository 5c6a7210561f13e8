"""A day at the mixer: how fast mixes are used up by what the log teaches, and what must lie beside the mixer."""
