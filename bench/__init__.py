"""Speed, measured as ratios in one run beside a peer or a floor."""
