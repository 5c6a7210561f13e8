"""A wall in many worlds: how often it cracks and falls when storms, strength and workmanship scatter."""
