"""What the keeper of a gear list looks at: what is due, what retires, where a piece is used, what a day needs."""
