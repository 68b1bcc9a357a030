"""What a reading means: its figures, before they are written."""
