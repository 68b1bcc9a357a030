"""The pulley system: brake, grip, rope, blocks, crew and tie-back."""
