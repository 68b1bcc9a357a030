"""The card for the tree."""
