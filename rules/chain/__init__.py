"""Rules about the order of the chain and the part that goes first."""
