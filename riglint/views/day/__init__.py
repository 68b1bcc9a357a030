"""What the page and the card of a day at a spot say, computed once."""
