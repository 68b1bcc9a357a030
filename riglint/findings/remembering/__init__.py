"""What was said before of files together, and is said again as long as everything that it rests on is the same."""
