"""Pages about the rulebook, its limits, sources and hazards, and the format of files."""
