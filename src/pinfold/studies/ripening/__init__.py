"""When what was placed is strong enough for what comes next, by how warm it is and was."""
