"""A rigged line between two anchor points: its equilibrium, its peaks, and how it is tensioned and measured."""
