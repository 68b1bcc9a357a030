"""What ties the walker to the line."""
