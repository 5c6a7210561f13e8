"""Weather: hours of it from any source, gaps and units mended and told, what is estimated marked."""
