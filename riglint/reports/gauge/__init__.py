"""What a reading means."""
