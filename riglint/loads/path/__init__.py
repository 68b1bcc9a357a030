"""Where each part lies: the run of the line from anchor to anchor, edges, ground, ends and what is used."""
