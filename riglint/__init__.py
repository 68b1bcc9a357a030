"""riglint: rules-based checks for slackline rig files."""

__version__ = "0.1.0"
