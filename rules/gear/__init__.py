"""Each piece of gear as its label and the gear book describe it."""
