"""Questions put to a plan: how it lies, does it stand, how much of what; answers are finished records."""
