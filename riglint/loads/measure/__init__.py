"""What was read on site, and what it means for the tension."""
