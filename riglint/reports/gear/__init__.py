"""The gear of a library, for its keeper."""
