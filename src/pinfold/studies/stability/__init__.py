"""Whether it stands: wind on walls, mesh, posts and gates, their hold in the ground, frost, buried lines and joints."""
