"""Sag, clearance and slope over the ground."""
