"""What reads the text of a field, as pydantic takes it.

In place of its `BeforeValidator` and `WithJsonSchema`: those are looked into anew for every field of every document,
which was half of what it takes until a file can be checked.
"""

from collections.abc import Callable
from typing import Any

from pydantic import GetCoreSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema
from pydantic_core.core_schema import no_info_before_validator_function


class ReadBy:
    """Reads a value before its type is looked at."""

    def __init__(self, read: Callable[[object], object]) -> None:
        self.read = read

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Return what pydantic runs."""
        return no_info_before_validator_function(self.read, handler(source))

    # Each is itself alone: two fields may say the same of themselves in the schema file and be read otherwise.
    __eq__ = object.__eq__
    __hash__ = object.__hash__


class NotedReadBy(ReadBy, WithJsonSchema):
    """Reads a value, and says of it what the schema file and editors need to know."""

    def __init__(self, read: Callable[[object], object], note: dict[str, Any]) -> None:
        ReadBy.__init__(self, read)
        WithJsonSchema.__init__(self, note)
