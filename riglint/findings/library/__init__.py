"""Sees the files of a library together: who refers to whom, what shows across rigs, what no rig refers to."""
