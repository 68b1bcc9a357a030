"""Rules about sag, clearance and slope over the ground."""
