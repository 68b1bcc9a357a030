"""Rig, spot, shelf and policy as typed values: every key has a meaning, every number its SI value."""
