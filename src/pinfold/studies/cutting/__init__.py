"""How parts are cut out of a mixed pile and of what the shop sells: lengths, sheets and rolls."""
