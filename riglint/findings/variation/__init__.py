"""The rulebook run again over a changed rig: comparisons, ranges, the ± of inputs, remedies."""
