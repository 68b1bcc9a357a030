"""Lets `python -m riglint` do what the command does."""

from riglint.cli import run

run()
