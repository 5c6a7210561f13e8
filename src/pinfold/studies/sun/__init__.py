"""Sun and shade on every face of the plan: where the sun stands, what it lights, how strongly."""
