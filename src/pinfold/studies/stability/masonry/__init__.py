"""The wall itself as masonry: levels where it changes, shear, pressed edge, bars, proportions and piers."""
