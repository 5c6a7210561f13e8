"""What to buy and gather, how it packs, what it weighs, and how many trips it takes."""
