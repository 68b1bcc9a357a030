"""The haul: its brake, grip, rope, blocks and crew, and what catches it."""
