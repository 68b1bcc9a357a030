"""What one value of a rig does to the others, over a range of it."""
