"""What is to be built, as frozen records; a plan neither calculates nor saves."""
