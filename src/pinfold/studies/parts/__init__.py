"""The part list: every piece that is cut out of something bought in lengths, rolls or sheets."""
