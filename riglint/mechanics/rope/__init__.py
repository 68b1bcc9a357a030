"""Ropes: tackles strand by strand, friction round a post."""
