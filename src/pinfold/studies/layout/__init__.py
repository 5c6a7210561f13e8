"""How the plan lies on the ground: stretches of wall and fence with steps, joints, posts and gates, found once."""
