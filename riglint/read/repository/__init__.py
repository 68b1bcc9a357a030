"""What a repository around the files tells: their revisions, what it leaves out, and where paths start."""
