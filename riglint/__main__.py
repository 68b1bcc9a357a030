"""Lets `python -m riglint` do what the command does."""

from riglint.front import run

run()
