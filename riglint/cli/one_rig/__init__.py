"""The commands that look at one rig, each in a module of its name."""
