"""What a change does to a rig."""
