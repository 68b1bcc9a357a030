"""From bytes on disk to text with places: which files, what they hold, what keeps them from being read."""
