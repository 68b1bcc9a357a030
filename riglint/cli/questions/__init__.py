"""The dialogue of `riglint ask`."""
