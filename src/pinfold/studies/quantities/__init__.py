"""How much of what: taken off the layout, never length times a rule alone."""
