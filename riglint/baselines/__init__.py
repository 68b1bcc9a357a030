"""Sound rigs that rule examples start from, each whole in one file."""
