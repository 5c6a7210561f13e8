"""Plan against actual: what the work done so far should have taken, what it took, and why the two differ."""
