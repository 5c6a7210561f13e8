"""A short account of the work for others: what is shared of it, and nothing else."""
