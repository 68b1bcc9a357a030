"""The page for a browser: the same riglint, run there by a Python that the browser carries.

`build` makes the folder; `engine` is what the page calls; `sources` are its files.
"""
