"""How the tension comes off again."""
