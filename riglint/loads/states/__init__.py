"""What the line goes through: people, wind and moves, and the tension that each brings."""
