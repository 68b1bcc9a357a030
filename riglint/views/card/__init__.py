"""What stands on the card for the tree: chain, figures, order of work, when to stop."""
