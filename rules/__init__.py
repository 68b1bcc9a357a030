"""The rulebook: one file, one rule; its path is its id."""
