"""Structures that stand on piers of blocks beside the plot: pads, stacks, wind and frost."""
