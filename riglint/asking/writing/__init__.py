"""From answers to a rig: its document, and the text that is written into the file."""
