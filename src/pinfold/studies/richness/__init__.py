"""What a richer or leaner mix does: strength, stiffness, shrinkage, cracks, stuff, cost and carbon by sand ratio."""
