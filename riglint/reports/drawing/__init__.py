"""Drawings of line, chain and haul."""
