"""Short ways of writing a rig, each written out before anything else looks at it."""
