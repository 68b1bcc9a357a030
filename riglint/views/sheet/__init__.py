"""What stands on the calculation sheet: its sections and its results."""
