"""Which pieces of a gear list would do in each place of a rig."""
