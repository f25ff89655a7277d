"""Small faults put into a module's own source: a comparison flipped, a unit dropped, a look-up swapped."""

import ast
import copy
import inspect
import sys
import types
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, NamedTuple

_FLIPPED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.GtE, ast.LtE), ast.LtE: (ast.Gt, ast.Lt), ast.Gt: (ast.LtE, ast.GtE), ast.GtE: (ast.Lt, ast.Gt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
# One look-up taken for another: the day, the revision, the end of a limit.
_SWAPPED = {
    "in_force": "procedure", "shown": "in_force", "low": "high", "high": "low", "due_day": "today",
    "tested": "recorded_ms", "read_class": "label_class",
    "read_at_opening": "read_later", "read_later": "read_at_opening",
    "on": "off", "before": "after", "since_ms": "until_ms", "covers": "needs", "purge": "torch",
    "finished": "released", "released": "finished", "same_as": "like", "like": "same_as",
}  # fmt: skip


Change = Callable[[Any], None]


class Mutant(NamedTuple):
    """A module with one fault in it: what it is, and in which function."""

    fault: str
    function: str
    tree: ast.Module


class _Place(NamedTuple):
    fault: str
    function: str
    change: Change
    node: ast.AST


def mutants(module: types.ModuleType) -> Iterator[Mutant]:
    """Give every mutant of a module, one fault each."""
    source = ast.parse(inspect.getsource(module))
    for number in range(len(list(_places(source)))):
        tree = copy.deepcopy(source)
        place = list(_places(tree))[number]
        place.change(place.node)
        yield Mutant(place.fault, place.function, ast.fix_missing_locations(tree))


def made(module: types.ModuleType, mutant: Mutant) -> types.ModuleType:
    """Give the module as it is with the fault in it; nothing that was imported before is touched."""
    faulty = types.ModuleType(module.__name__)
    faulty.__file__ = module.__file__
    exec(compile(mutant.tree, module.__file__ or "", "exec"), faulty.__dict__)
    return faulty


def made_upon(module: types.ModuleType, faulty: types.ModuleType) -> types.ModuleType:
    """Give a module anew, resting on a faulty one it imports from."""
    kept = sys.modules[faulty.__name__]
    sys.modules[faulty.__name__] = faulty
    try:
        return made(module, Mutant("", "", ast.parse(inspect.getsource(module))))
    finally:
        sys.modules[faulty.__name__] = kept


def _places(tree: ast.Module) -> Iterator[_Place]:
    for function in [node for node in tree.body if isinstance(node, ast.FunctionDef)]:
        found = [place for decorator in function.decorator_list for place in _in_decorator(decorator)]
        found += [place for statement in function.body for node in ast.walk(statement) for place in _in_body(node)]
        yield from (_Place(fault, function.name, change, node) for fault, change, node in found)


def _in_decorator(decorator: ast.expr) -> Iterator[tuple[str, Change, ast.AST]]:
    for keyword in getattr(decorator, "keywords", ()):
        if keyword.arg == "severity":
            yield "another severity", _other_severity, keyword.value
        if keyword.arg == "limit" and keyword.value.value:
            yield "another limit", _other_text, keyword.value


def _in_body(node: ast.AST) -> Iterator[tuple[str, Change, ast.AST]]:
    where = f"line {getattr(node, 'lineno', 0)}"
    if isinstance(node, ast.Compare):
        for flipped in _FLIPPED[type(node.ops[0])]:
            name = f"{type(node.ops[0]).__name__} to {flipped.__name__}, {where}"
            yield name, partial(_compare_by, flipped), node
    if isinstance(node, ast.BoolOp):
        other = ast.Or if isinstance(node.op, ast.And) else ast.And
        yield f"{type(node.op).__name__} to {other.__name__}, {where}", lambda n: setattr(n, "op", other()), node
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield f"not dropped, {where}", _truth, node
    if isinstance(node, ast.keyword) and node.arg == "unit":
        yield "unit dropped", lambda n: setattr(n, "value", ast.Constant("")), node
    if isinstance(node, ast.Attribute) and node.attr in _SWAPPED:
        yield f"{node.attr} taken for {_SWAPPED[node.attr]}, {where}", _swap, node


def _compare_by(flipped: type[ast.cmpop], node: ast.Compare) -> None:
    node.ops = [flipped(), *node.ops[1:]]


def _truth(node: ast.UnaryOp) -> None:
    node.op = ast.UAdd()
    node.operand = ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])


def _swap(node: ast.Attribute) -> None:
    node.attr = _SWAPPED[node.attr]


def _other_severity(node: ast.Attribute) -> None:
    node.attr = "NOTE" if node.attr != "NOTE" else "STOP"


def _other_text(node: ast.Constant) -> None:
    node.value = "clock_offset" if node.value != "clock_offset" else "late_entry"
