"""Gates that fit and last: leaf, frame, weight, swing, latch, who passes, and what years do to them."""
