"""What stands on each document, computed once and frozen; how it is written is the business of `riglint.reports`."""
