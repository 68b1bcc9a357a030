"""The calculation sheet."""
