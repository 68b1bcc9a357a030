"""Each piece of gear, by its label and its entry in the gear list."""
