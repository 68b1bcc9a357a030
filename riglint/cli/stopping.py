"""Exit statuses, and how a command stops short of its work."""

from __future__ import annotations

CALL_WRONG, NOT_DONE = 2, 3


class StopError(Exception):
    """A command cannot go on: the sentence is for standard error, the status for the caller."""

    def __init__(self, message: str, status: int) -> None:
        super().__init__(message)
        self.status = status
