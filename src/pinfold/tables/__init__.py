"""Published numbers as data files with typed rows, each figure with its source and standing."""
