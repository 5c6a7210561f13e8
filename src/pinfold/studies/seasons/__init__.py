"""Rules of place and season: which hours of weather a work may be done in, with which measures, and people's heat."""
