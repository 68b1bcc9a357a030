"""The physics of a rig: numbers in (N, m, kg, s, rad), frozen results out; no files, no printing."""
