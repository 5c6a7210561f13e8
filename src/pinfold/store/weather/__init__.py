"""Weather files as they lie in a site's folder `weather`: each known by what stands in it, never by its name."""
