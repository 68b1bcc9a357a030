"""Order of the chain, and the part that goes first."""
