"""Rules about what is left behind an anchor, a knot or a brake."""
