"""What mutmut's operators make of the functions of a file, each a function that can be put in the place of the sound one.

mutmut (3.8) makes the mutants; it would begin pytest anew for each, and passes over decorated functions, of which the
checks have many. Here a mutant is the code of one function, and `put_in` gives that code to the function at work.
"""

import __future__

import ast
import difflib
import gc
import importlib
import random
import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from types import FunctionType
from typing import Any, NamedTuple

import libcst
from libcst.metadata import MetadataWrapper, PositionProvider

_making: Any = importlib.import_module("mutmut.mutation.file_mutation")
_operators: Any = importlib.import_module("mutmut.mutation.mutators")
_pragmas: Any = importlib.import_module("mutmut.mutation.pragma_handling")

_ID_OR_KEY = re.compile(r"[\w.:/+-]+")
"""What a string of one word may be asked for by; all others are wording, which is not mutated."""


class Mutant(NamedTuple):
    """One change in one function."""

    file: str
    function: str
    """As `__qualname__` has it."""
    number: int
    """Among the mutants of its function."""
    lines: frozenset[int]
    """Of the statement that was changed: whoever runs none of them cannot notice."""
    source: str
    """The function with the change, without its decorators."""
    change: str
    """The lines that differ, as a diff has them."""

    @property
    def name(self) -> str:
        """File, function and number, as they are typed to try it alone."""
        return f"{self.file}:{self.function}:{self.number}"


class Change(NamedTuple):
    """Where a mutant would differ; its code is made only where it is to be tried."""

    file: str
    function: str
    number: int
    lines: frozenset[int]
    bare: libcst.FunctionDef
    """The function without its decorators."""
    was: libcst.CSTNode
    becomes: libcst.CSTNode

    @property
    def name(self) -> str:
        """File, function and number, as they are typed to try it alone."""
        return f"{self.file}:{self.function}:{self.number}"


def changes_of(file: str, text: str) -> list[Change]:
    """All of a file."""
    wrapper = MetadataWrapper(libcst.parse_module(text))
    visitor = _Functions(_operators_of_a_room(), _pragmas.IgnoredCode(set(), set(), set()), None)
    module = wrapper.visit(visitor)
    positions = wrapper.resolve(PositionProvider)
    statements, owners = _statements(text), _owners(module)
    bare = {function: _without_decorators(function) for function in owners}
    made: list[Change] = []
    count: dict[str, int] = {}
    for each in visitor.mutations:
        function = each.contained_by_top_level_function
        if function in owners:
            qualified = f"{owners[function]}{function.name.value}"
            count[qualified] = number = count.get(qualified, 0) + 1
            place = positions.get(each.original_node, positions[function])
            lines = _lines_of(statements, place.start.line, positions[function])
            made.append(Change(file, qualified, number, lines, bare[function], each.original_node, each.mutated_node))
    return made


def mutants_of(changes: Iterable[Change]) -> Iterator[Mutant]:
    """With their code; a change that makes no other function, or none that can be read, is left out."""
    for each in changes:
        before = libcst.Module([each.bare]).code
        after = libcst.Module([_making.deep_replace(each.bare, each.was, each.becomes)]).code
        if after != before and _compiles(after):
            yield Mutant(each.file, each.function, each.number, each.lines, after, _difference(before, after))


def drawn(changes: Sequence[Change], at_most: int | None, seed: int) -> list[Change]:
    """All, or so many drawn by a seed where there are more, in the order drawn: a run that is stopped is a sample too."""
    if at_most is None or len(changes) <= at_most:
        return [*changes]
    return random.Random(seed).sample(changes, at_most)


def functions_at_work(root: Path, files: Sequence[str]) -> Mapping[tuple[str, str], list[FunctionType]]:
    """The functions of these files that are loaded, by file and `__qualname__`; decorated ones as they were before."""
    names = {str(root / file): file for file in files}
    found: dict[tuple[str, str], list[FunctionType]] = {}
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and (file := names.get(each.__code__.co_filename)):
            found.setdefault((file, each.__code__.co_qualname), []).append(each)
    return found


def put_in(mutant: Mutant, functions: Sequence[FunctionType]) -> None:
    """Let the functions at work do as the mutant does."""
    *owner, name = mutant.function.split(".")
    source = mutant.source
    for each in reversed(owner):
        source = f"class {each}:\n{textwrap.indent(source, '    ')}"
    code = compile(source, mutant.file, "exec", flags=__future__.annotations.compiler_flag)
    for function in functions:
        space: dict[str, Any] = {}
        exec(code, function.__globals__, space)
        made = space[owner[0]] if owner else space[name]
        for each in [*owner[1:], name] if owner else ():
            made = vars(made)[each]
        function.__code__ = made.__code__
        function.__defaults__, function.__kwdefaults__ = made.__defaults__, made.__kwdefaults__


class _Functions(_making.MutationVisitor):  # type: ignore[misc]
    """As mutmut visits, but into decorated functions as well; their decorators stay as they are."""

    def _skip_node_and_children(self, node: libcst.CSTNode) -> bool:
        if isinstance(node, libcst.FunctionDef) and node.decorators:
            return node.name.value in _making.NEVER_MUTATE_FUNCTION_NAMES
        return bool(super()._skip_node_and_children(node))


def _operators_of_a_room() -> list[tuple[type, Any]]:
    return [
        (kind, _of_an_id_or_key if operator is _operators.operator_string else operator)
        for kind, operator in _operators.mutation_operators
    ]


def _of_an_id_or_key(node: libcst.BaseString) -> Iterator[libcst.BaseString]:
    if isinstance(node, libcst.SimpleString) and _ID_OR_KEY.fullmatch(str(node.evaluated_value)):
        yield from _operators.operator_string(node)


def _owners(module: libcst.Module) -> dict[libcst.CSTNode, str]:
    """Functions of a module and methods of its classes, with what stands before their names."""
    owners: dict[libcst.CSTNode, str] = {}
    for node in module.body:
        if isinstance(node, libcst.FunctionDef):
            owners[node] = ""
        elif isinstance(node, libcst.ClassDef):
            owners |= {each: f"{node.name.value}." for each in node.body.body if isinstance(each, libcst.FunctionDef)}
    return owners


def _without_decorators(function: libcst.FunctionDef) -> libcst.FunctionDef:
    return function.with_changes(decorators=(), leading_lines=(), lines_after_decorators=())


def _statements(text: str) -> list[tuple[int, int]]:
    """First and last line of each statement; of one that holds others, the lines before them."""
    spans: list[tuple[int, int]] = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.stmt):
            inner = [each.lineno for each in ast.walk(node) if isinstance(each, ast.stmt) and each is not node]
            last = min(inner, default=(node.end_lineno or node.lineno) + 1) - 1
            spans.append((node.lineno, max(node.lineno, last)))
    return spans


def _lines_of(statements: Sequence[tuple[int, int]], line: int, function: Any) -> frozenset[int]:
    """Of the closest statement around a line; of the whole function where that is its head."""
    around = [each for each in statements if each[0] <= line <= each[1]]
    first, last = min(around, key=lambda each: each[1] - each[0], default=(line, line))
    if first <= function.start.line:
        first, last = function.start.line, function.end.line
    return frozenset(range(first, last + 1))


def _compiles(source: str) -> bool:
    try:
        compile(source, "mutant", "exec")
    except SyntaxError:
        return False
    return True


def _difference(before: str, after: str) -> str:
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return "\n".join(each for each in lines if each[:3] not in ("---", "+++") and each[:2] != "@@")
