"""Starting files for rigs, spots, shelves and policies; data, printed by `riglint draft`."""
