"""How far each value may move."""
