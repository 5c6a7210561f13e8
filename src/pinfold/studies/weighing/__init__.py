"""One enclosure in several build-ups: each laid out, counted and judged alike."""
