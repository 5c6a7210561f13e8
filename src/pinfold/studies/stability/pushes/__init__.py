"""People, stock and game that lean, press and climb: what walls, posts and gates make of it."""
