"""Leaves on their hinges: what holds the hinges, what keeps the leaf square, and whether it still latches in years."""
