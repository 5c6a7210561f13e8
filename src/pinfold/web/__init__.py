"""Door 2: the local pages, for this machine or the home network."""
