"""Whether the line suits what is done on it: height, length, give."""
