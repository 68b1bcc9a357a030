"""Plain values to models: the checks that pydantic makes of our field types, put together by us.

pydantic puts them together as well, from whatever type there may be; that takes a tenth of the audit of one rig. Here
each of the few types that our documents have gets its check straight away. `tests/schema/test_checked.py` holds one
against the other.
"""

from collections.abc import Callable
from functools import cache, partial
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from annotated_types import Ge, Le
from pydantic import BaseModel, Discriminator, Tag
from pydantic.fields import FieldInfo
from pydantic_core import CoreSchema, PydanticKnownError, SchemaValidator, core_schema

from riglint.model.vocabulary.fields import Form, without_nulls
from riglint.model.vocabulary.read_by import ReadBy

__all__ = ["checked"]

Model = TypeVar("Model", bound=BaseModel)


def checked(model: type[Model], data: object) -> Model:
    """Return the model of plain values, as `model_validate` does.

    Raises:
        pydantic.ValidationError: all that is wrong with them, as pydantic says it.
    """
    found: Model = _validator(model).validate_python(data)
    return found


@cache
def _validator(model: type[BaseModel]) -> SchemaValidator:
    known: dict[str, CoreSchema] = {}
    whole = _of_type(model, known)
    return SchemaValidator(core_schema.definitions_schema(whole, list(known.values())))


def _of_type(annotation: Any, known: dict[str, CoreSchema]) -> CoreSchema:
    """Return the check of a type; each model that it meets is put among those known, once."""
    if isinstance(annotation, type) and issubclass(annotation, Form):
        return _of_model(annotation, known)
    origin, inner = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _noted(inner[0], inner[1:], known)
    if origin is Literal:
        return core_schema.literal_schema(list(inner))
    of = [_of_type(one, known) for one in inner if one is not NoneType]
    return _SHAPES[annotation if origin is None else origin](*of)


def _or_none(schema: CoreSchema) -> CoreSchema:  # any other choice has a note that says how to tell
    return core_schema.nullable_schema(schema)


_SHAPES: dict[Any, Callable[..., CoreSchema]] = {
    str: core_schema.str_schema,
    list: core_schema.list_schema,
    dict: core_schema.dict_schema,
    tuple: lambda *of: core_schema.tuple_schema([*of]),
    Union: _or_none,
    UnionType: _or_none,
}


def _of_model(model: type[Form], known: dict[str, CoreSchema]) -> CoreSchema:
    ref = f"{model.__module__}.{model.__qualname__}"
    if ref not in known:
        known[ref] = core_schema.none_schema()  # it may hold itself, further down
        fields = {name: _of_field(field, known) for name, field in model.model_fields.items()}
        inside = core_schema.no_info_before_validator_function(
            partial(without_nulls, model), core_schema.model_fields_schema(fields, model_name=model.__name__)
        )
        config = core_schema.CoreConfig(title=model.__name__, extra_fields_behavior="forbid")
        known[ref] = core_schema.model_schema(model, inside, config=config, ref=ref)
    return core_schema.definition_reference_schema(ref)


def _of_field(field: FieldInfo, known: dict[str, CoreSchema]) -> core_schema.ModelField:
    notes = [*field.metadata, *([field.discriminator] if field.discriminator else ())]
    schema = _noted(field.annotation, notes, known)
    if not field.is_required():
        schema = core_schema.with_default_schema(schema, default=field.default)
    return core_schema.model_field(schema, validation_alias=field.alias)


def _noted(annotation: Any, notes: Any, known: dict[str, CoreSchema]) -> CoreSchema:
    """Return the check of a type with notes: what reads it, which of several it is, between what it lies."""
    schema: CoreSchema | None = None
    for note in notes:
        if isinstance(note, ReadBy):  # what it returns is of the field's type
            schema = core_schema.no_info_plain_validator_function(note.read)
        elif isinstance(note, Discriminator):
            schema = _choice(annotation, note, known)
        for bound in note.metadata if isinstance(note, FieldInfo) else (note,):
            if isinstance(bound, Ge | Le) and schema is not None:
                schema = core_schema.no_info_after_validator_function(_bounded(bound), schema)
    return _of_type(annotation, known) if schema is None else schema


def _choice(annotation: Any, which: Discriminator, known: dict[str, CoreSchema]) -> CoreSchema:
    ways = {
        note.tag: _noted(one, notes, known)
        for one, *notes in map(get_args, get_args(annotation))
        for note in notes
        if isinstance(note, Tag)
    }
    return core_schema.tagged_union_schema(ways, which.discriminator)


def _bounded(bound: Ge | Le) -> Callable[[Any], Any]:
    def look(number: Any) -> Any:
        if isinstance(bound, Ge) and not number >= bound.ge:
            raise PydanticKnownError("greater_than_equal", {"ge": bound.ge})
        if isinstance(bound, Le) and not number <= bound.le:
            raise PydanticKnownError("less_than_equal", {"le": bound.le})
        return number

    return look
