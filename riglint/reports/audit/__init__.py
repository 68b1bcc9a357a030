"""The audit of files: text, page, markdown and what other programs read."""
