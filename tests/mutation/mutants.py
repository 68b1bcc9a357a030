"""Small changes of a source file, each of which some test should notice, one at a time.

Comparisons and constants everywhere; where nothing is computed and all hangs on what is done at all (reading, findings,
policy, exit status) also statements left out, `and` for `or`, `not` left out, the least for the greatest.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

# Neighbours that a slip of the pen would leave: on the boundary, and the wrong way round.
TURNED: dict[type[ast.cmpop], tuple[str, ...]] = {
    ast.Lt: ("<=", ">"),
    ast.LtE: ("<", ">="),
    ast.Gt: (">=", "<"),
    ast.GtE: (">", "<="),
    ast.Eq: ("!=",),
    ast.NotEq: ("==",),
    ast.In: ("not in",),
    ast.NotIn: ("in",),
    ast.Is: ("is not",),
    ast.IsNot: ("is",),
}
WRITTEN: dict[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.In: "in",
    ast.NotIn: "not in",
    ast.Is: "is",
    ast.IsNot: "is not",
}
LOGIC: dict[type[ast.boolop], tuple[str, str]] = {ast.And: ("and", "or"), ast.Or: ("or", "and")}
CALLS = {"max": "min", "min": "max", "any": "all", "all": "any"}
SETS: dict[type[ast.operator], tuple[str, str]] = {
    ast.BitOr: ("|", "&"),
    ast.Sub: ("-", "|"),
    ast.BitAnd: ("&", "|"),
}
NUMBER = re.compile(r"\d+(?:\.\d+)?")
# Keywords of a rule whose values are words for a reader, or the examples that do the testing.
NOT_JUDGED = frozenset(
    {"examples", "title", "why", "formula", "because", "source", "sources", "prevents", "name"}
)


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one file."""

    file: str
    line: int
    column: int  # characters, from 0
    end: int  # offset in characters where the changed text ends
    start: int
    old: str
    new: str
    kind: str  # comparison, constant; logic, choice, flag, statement
    function: str = "module"  # the innermost around it

    @property
    def name(self) -> str:
        """Where it is and what it does; stays the same while the lines above move."""
        return f"{self.file} {self.function}: {self.old} -> {self.new}"

    def applied(self, source: str) -> str:
        """Return the source with the change made."""
        return source[: self.start] + self.new + source[self.end :]


def mutants_of(source: str, file: str, *, doing: bool = False) -> list[Mutant]:
    """Return every mutant of a source, in the order of the text; `doing` adds those of what is done at all."""
    tree = ast.parse(source)
    offsets = _offsets(source)
    found = [one for node in _judged(tree) for one in _mutants(node, source, file, offsets)]
    if doing:
        found += [one for node in _judged(tree) for one in _deeds(node, source, file, offsets)]
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    placed = [replace(one, function=_around(one, functions)) for one in found]
    return sorted(placed, key=lambda one: (one.start, one.end, one.new))


def _around(mutant: Mutant, functions: list[ast.FunctionDef]) -> str:
    """Return the name of the innermost function around a mutant."""
    inside = [one for one in functions if one.lineno <= mutant.line <= (one.end_lineno or one.lineno)]
    return max(inside, key=lambda one: one.lineno).name if inside else "module"


def _judged(tree: ast.AST) -> Iterator[ast.AST]:
    """Yield all nodes but those of type hints, docstrings, words for readers and examples."""
    waiting: list[ast.AST] = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        for name, value in ast.iter_fields(node):
            if name in {"annotation", "returns", "format_spec"} or (
                isinstance(node, ast.keyword) and node.arg in NOT_JUDGED
            ):
                continue
            children = value if isinstance(value, list) else [value]
            if name == "decorator_list":
                children = [child for child in children if not _makes_a_dataclass(child)]
            waiting += [child for child in children if isinstance(child, ast.AST) and not _is_text(child)]


def _makes_a_dataclass(node: ast.AST) -> bool:
    """Whether a decorator is `dataclass`: `frozen` and `slots` keep values from being changed, and change none."""
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "dataclass"


def _is_text(node: ast.AST) -> bool:
    """Whether a statement is a bare string: a docstring."""
    return (
        isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    )


def _offsets(source: str) -> list[int]:
    """Return where each line begins, in characters; line numbers count from 1."""
    starts = [0, 0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    return starts


def _mutants(node: ast.AST, source: str, file: str, offsets: list[int]) -> Iterator[Mutant]:
    if isinstance(node, ast.Compare):
        yield from _comparisons(node, source, file, offsets)
    elif isinstance(node, ast.keyword) and node.arg == "text" and isinstance(node.value, ast.Constant):
        yield from _limits(node.value, source, file, offsets)
    elif (
        isinstance(node, ast.Constant)
        and isinstance(node.value, int | float)
        and not isinstance(node.value, bool)
    ):
        start, end = _span(node, source, offsets)
        for new in _other_numbers(source[start:end], node.value):
            yield Mutant(file, node.lineno, node.col_offset, end, start, source[start:end], new, "constant")


def _span(node: ast.expr | ast.stmt, source: str, offsets: list[int]) -> tuple[int, int]:
    """Return where a node begins and ends, in characters; the parser counts bytes."""

    def at(line: int, column: int) -> int:
        text = source[offsets[line] :].partition("\n")[0]
        return offsets[line] + len(text.encode()[:column].decode())

    assert node.end_lineno is not None
    assert node.end_col_offset is not None
    return at(node.lineno, node.col_offset), at(node.end_lineno, node.end_col_offset)


def _comparisons(node: ast.Compare, source: str, file: str, offsets: list[int]) -> Iterator[Mutant]:
    sides = [node.left, *node.comparators]
    for left, right, operator in zip(sides, sides[1:], node.ops, strict=False):
        start, end = _span(left, source, offsets)[1], _span(right, source, offsets)[0]
        match = re.search(rf"\s*{re.escape(WRITTEN[type(operator)])}\s*", source[start:end])
        if match is None:
            continue  # a comment stands in between
        sign = match[0].strip()
        first = start + match.start() + match[0].index(sign)
        for new in TURNED[type(operator)]:
            yield Mutant(
                file, node.lineno, node.col_offset, first + len(sign), first, sign, new, "comparison"
            )


def _deeds(node: ast.AST, source: str, file: str, offsets: list[int]) -> Iterator[Mutant]:
    """Yield mutants of what is done at all."""
    for start, end, new, kind in (*_turned(node, source, offsets), *_left_out(node, source, offsets)):
        old = " ".join(source[start:end].split())
        line = source.count("\n", 0, start) + 1
        yield Mutant(file, line, 0, end, start, old, new, kind)


Change = tuple[int, int, str, str]  # where it begins and ends, what stands there instead, and its kind


def _turned(node: ast.AST, source: str, offsets: list[int]) -> Iterator[Change]:
    """Yield `or` for `and`, the other set, the least for the greatest, false for true."""
    if isinstance(node, ast.BoolOp):
        sign, other = LOGIC[type(node.op)]
        for left, right in zip(node.values, node.values[1:], strict=False):
            start, end = _span(left, source, offsets)[1], _span(right, source, offsets)[0]
            match = re.search(rf"\b{sign}\b", source[start:end])
            if match:
                yield start + match.start(), start + match.end(), other, "logic"
    elif isinstance(node, ast.BinOp) and type(node.op) in SETS and _of_sets(node):
        sign, other = SETS[type(node.op)]
        start, end = _span(node.left, source, offsets)[1], _span(node.right, source, offsets)[0]
        at = source.find(sign, start, end)
        if at >= 0:
            yield at, at + len(sign), other, "logic"
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
        yield *_span(node.func, source, offsets), CALLS[node.func.id], "choice"
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield *_span(node, source, offsets), str(not node.value), "flag"


def _left_out(node: ast.AST, source: str, offsets: list[int]) -> Iterator[Change]:
    """Yield a `not` and a statement left out."""
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        start, _ = _span(node, source, offsets)
        yield start, start + len("not"), "", "logic"
    elif isinstance(node, ast.AugAssign) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)):
        yield *_span(node, source, offsets), "pass", "statement"


def _of_sets(node: ast.BinOp) -> bool:
    """Whether an operator most likely joins sets or lists of rules: a difference with a name or a call, no number."""
    return not any(isinstance(side, ast.Constant) for side in (node.left, node.right))


def _limits(node: ast.Constant, source: str, file: str, offsets: list[int]) -> Iterator[Mutant]:
    """Yield a limit's text with another number: 0.5 m becomes 0.55 m."""
    start, end = _span(node, source, offsets)
    number = NUMBER.search(source, start, end)
    if number is not None:
        old = number[0]
        for new in _other_numbers(old, float(old) if "." in old else int(old)):
            yield Mutant(
                file, node.lineno, node.col_offset, number.end(), number.start(), old, new, "constant"
            )


def _other_numbers(written: str, value: float) -> Iterator[str]:
    """Yield a neighbour: the next integer for small counts, the next power of ten after 1e-, else a tenth more."""
    if isinstance(value, int) and abs(value) <= 20:
        yield str(value + 1)
    elif value == 0:
        yield "1.0"
    elif isinstance(value, int):
        yield str(round(value * 1.1))
    elif "e-" in written:  # a small number: a slip there is one of the exponent
        yield repr(float(written) * 10.0)
    else:
        yield repr(float(written.replace("_", "")) * 1.1)
