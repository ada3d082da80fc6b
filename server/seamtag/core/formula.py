"""Formulas of a plan: a small part of Python's expressions, kept as a JSON tree.

The server parses the text when a plan is published; phone and server both work out the tree. Arithmetic is decimal,
28 digits, half-even, so that both give the same last digit.

A tree is a list: ["num", "0.125"], ["name", "t"], ["item", "step", "code"], ["neg", a], ["add", a, b], ["sub", a, b],
["mul", a, b], ["div", a, b], ["pow", a, 2], ["if", test, a, b], ["lt"|"le"|"gt"|"ge"|"eq"|"ne", a, b],
["and"|"or", a, b], ["not", a], ["call", "min", a, ...], ["table", "name", x].
"""

import ast
import decimal
import operator
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from seamtag.core import welding
from seamtag.core.numbers import CONTEXT, MOST_DIGITS

FORMAT = 1
MOST_CHARACTERS = 500
MOST_DEPTH = 30
MOST_POWER = 6
MOST_EXPONENT = 9999
"""Of ten, either way, in any value worked out; what is compared and converted later still fits."""

Tree = list[Any]
Reading = Decimal | list[Decimal]

OPERATORS: dict[type[ast.operator], str] = {ast.Add: "add", ast.Sub: "sub", ast.Mult: "mul", ast.Div: "div"}
COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "lt", ast.LtE: "le", ast.Gt: "gt", ast.GtE: "ge", ast.Eq: "eq", ast.NotEq: "ne",
}  # fmt: skip
ON_TWO: dict[str, Callable[[Decimal, Decimal], Decimal | bool]] = {
    "lt": operator.lt, "le": operator.le, "gt": operator.gt, "ge": operator.ge, "eq": operator.eq, "ne": operator.ne,
    "add": CONTEXT.add, "sub": CONTEXT.subtract, "mul": CONTEXT.multiply, "div": CONTEXT.divide,
}  # fmt: skip
ON_NUMBERS = {"min": None, "max": None, "abs": 1, "sqrt": 1}
OF_THE_TRADE: dict[str, tuple[int, Callable[..., Decimal]]] = {
    "throat": (2, welding.throat), "arc_energy": (3, welding.arc_energy), "heat_input": (4, welding.heat_input),
    "carbon_equivalent": (7, welding.carbon_equivalent), "wall_reduction": (4, welding.wall_reduction),
}  # fmt: skip
"""Functions of core.welding by name, with the number of values each takes; what they are is said there."""
ON_READINGS = {"largest", "smallest", "spread", "mean", "count"}


class FormulaError(ValueError):
    """The formula cannot be read or cannot be worked out. The message says what is wrong, with what."""


class MissingValueError(FormulaError):
    """A figure or reading that the formula asks for is not there (yet)."""


@dataclass(frozen=True)
class Names:
    """What a formula may look up: figures by name, and readings of items by (step, item); step '' is its own."""

    figures: Mapping[str, Decimal]
    readings: Callable[[str, str], list[Decimal]]
    tables: Mapping[str, Any]


def parse(text: str) -> Tree:
    """The tree of a formula's text. Raises FormulaError where it is no formula of this language."""
    if len(text) > MOST_CHARACTERS:
        raise FormulaError(f"limit '{text[:40]}...' is longer than {MOST_CHARACTERS} characters")
    if not text.strip():
        raise FormulaError("the formula is empty")
    try:
        expression = ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError) as error:
        raise FormulaError(f"'{text}' is not a formula: {plain_reason(text, error)}") from None
    return tree_of(expression, text, 0)


def plain_reason(text: str, error: Exception) -> str:
    if text.count("(") > text.count(")"):
        return "a closing bracket is missing"
    if text.count("(") < text.count(")"):
        return "it has a closing bracket too many"
    return f"it cannot be read at character {getattr(error, 'offset', None) or 1}"


def tree_of(node: ast.expr, text: str, depth: int) -> Tree:
    if depth > MOST_DEPTH:
        raise FormulaError(f"'{text[:40]}' is nested too deep")
    below = depth + 1
    match node:
        case ast.Constant(value=bool() | str() | bytes() | None) | ast.Constant(value=complex()):
            pass
        case ast.Constant():
            return ["num", number_text(node, text)]
        case ast.Name(id=name):
            return ["name", name]
        case ast.Attribute(value=ast.Name(id=step), attr=item):
            return ["item", step, item]
        case ast.UnaryOp(op=ast.USub(), operand=a):
            return ["neg", tree_of(a, text, below)]
        case ast.UnaryOp(op=ast.Not(), operand=a):
            return ["not", tree_of(a, text, below)]
        case ast.BinOp(left=a, op=ast.Pow(), right=ast.Constant(value=int(power))) if 1 <= power <= MOST_POWER:
            return ["pow", tree_of(a, text, below), power]
        case ast.BinOp(left=a, op=op, right=b) if type(op) in OPERATORS:
            return [OPERATORS[type(op)], tree_of(a, text, below), tree_of(b, text, below)]
        case ast.IfExp(test=test, body=a, orelse=b):
            return ["if", tree_of(test, text, below), tree_of(a, text, below), tree_of(b, text, below)]
        case ast.Compare(left=a, ops=[op], comparators=[b]) if type(op) in COMPARISONS:
            return [COMPARISONS[type(op)], tree_of(a, text, below), tree_of(b, text, below)]
        case ast.BoolOp(op=op, values=values):
            word = "and" if isinstance(op, ast.And) else "or"
            if len(values) + depth > MOST_DEPTH:
                raise FormulaError(f"'{text[:40]}' has more than {MOST_DEPTH} conditions in a row")
            return pairwise(word, [tree_of(v, text, below) for v in values])
        case ast.Call(func=ast.Name(id=function), args=args, keywords=[]):
            return call_of(function, args, text, below)
    raise FormulaError(f"'{written_out(node, text)[:60]}' has no place in a formula")


def written_out(node: ast.expr, text: str) -> str:
    try:
        return ast.unparse(node)
    except RecursionError:
        return text


def number_text(node: ast.Constant, text: str) -> str:
    """The number's own digits, so that 0.1 stays 0.1."""
    written = ast.get_source_segment(text.strip(), node) or str(node.value)
    try:
        value = Decimal(written.replace("_", ""))
    except decimal.InvalidOperation:
        raise FormulaError(f"'{written}' is not a plain number") from None
    if len(value.as_tuple().digits) > MOST_DIGITS or abs(value.adjusted()) > MOST_DIGITS:
        raise FormulaError(f"'{written}' has more than {MOST_DIGITS} digits")
    return format(value, "f")


def pairwise(word: str, trees: list[Tree]) -> Tree:
    joined = trees[0]
    for tree in trees[1:]:
        joined = [word, joined, tree]
    return joined


def call_of(function: str, args: Sequence[ast.expr], text: str, depth: int) -> Tree:
    if function == "table":
        match args:
            case [ast.Constant(value=str(name)), x]:
                return ["table", name, tree_of(x, text, depth)]
        raise FormulaError("table() takes the table's name in quotes and a value")
    if function in ON_READINGS:
        match args:
            case [ast.Name() | ast.Attribute() as item]:
                return ["call", function, tree_of(item, text, depth)]
        raise FormulaError(f"{function}() takes one item")
    if function not in ON_NUMBERS and function not in OF_THE_TRADE:
        raise FormulaError(f"there is no function {function}(); there are min, max, abs, sqrt, table, "
                           + ", ".join(sorted({*ON_READINGS, *OF_THE_TRADE})))  # fmt: skip
    wanted = OF_THE_TRADE[function][0] if function in OF_THE_TRADE else ON_NUMBERS[function]
    if not args or (wanted is not None and len(args) != wanted):
        how_many = {None: "one value or more", 1: "one value"}.get(wanted, f"{wanted} values")
        raise FormulaError(f"{function}() takes {how_many}")
    return ["call", function, *(tree_of(arg, text, depth) for arg in args)]


def walk(tree: Tree) -> Iterator[Tree]:
    """The tree and every tree below it."""
    yield tree
    for part in tree[1:]:
        if isinstance(part, list):
            yield from walk(part)


def work_out(tree: Tree, names: Names) -> Decimal:
    """The value of a tree.

    Raises MissingValueError where a figure or reading is not there, FormulaError where it has no value.
    """
    value = evaluate(tree, names, 0)
    if isinstance(value, bool):
        raise FormulaError("the formula gives yes or no where a number is needed")
    return value


def holds(tree: Tree, names: Names) -> bool:
    """Whether a condition is true. Raises as work_out does."""
    value = evaluate(tree, names, 0)
    if not isinstance(value, bool):
        raise FormulaError("the condition gives a number where yes or no is needed")
    return value


def evaluate(tree: Tree, names: Names, depth: int) -> Decimal | bool:
    if depth > MOST_DEPTH * 2:
        raise FormulaError("the formula is nested too deep")
    word = tree[0]
    below = depth + 1
    if word == "num":
        return Decimal(tree[1])
    if word == "name":
        return one_value("", tree[1], names)
    if word == "item":
        return one_value(tree[1], tree[2], names)
    if word == "table":
        return table_value(tree[1], number(tree[2], names, below), names, below)
    if word == "call":
        return call_value(tree, names, below)
    if word == "pow":
        return power(number(tree[1], names, below), tree[2])
    if word == "if":
        return evaluate(tree[2] if truth(tree[1], names, below) else tree[3], names, below)
    if word == "not":
        return not truth(tree[1], names, below)
    if word == "and":
        return truth(tree[1], names, below) and truth(tree[2], names, below)
    if word == "or":
        return truth(tree[1], names, below) or truth(tree[2], names, below)
    if word == "neg":
        return CONTEXT.minus(number(tree[1], names, below))
    if word not in ON_TWO:
        raise FormulaError(f"'{word}' is unknown; the plan was made for a newer Seamtag")
    return two_numbers(word, number(tree[1], names, below), number(tree[2], names, below))


def number(tree: Tree, names: Names, depth: int) -> Decimal:
    value = evaluate(tree, names, depth)
    if isinstance(value, bool):
        raise FormulaError("yes or no stands where a number is needed")
    return value


def truth(tree: Tree, names: Names, depth: int) -> bool:
    value = evaluate(tree, names, depth)
    if not isinstance(value, bool):
        raise FormulaError("a number stands where yes or no is needed")
    return value


def two_numbers(word: str, a: Decimal, b: Decimal) -> Decimal | bool:
    if word == "div" and b == 0:
        raise FormulaError("division by zero")
    found = ON_TWO[word](a, b)
    return found if isinstance(found, bool) else bounded(found)


def bounded(value: Decimal) -> Decimal:
    if value and value.adjusted() > MOST_EXPONENT:
        raise FormulaError("the result is too large")
    if value and value.adjusted() < -MOST_EXPONENT:
        raise FormulaError("the result is too small")
    return value


def power(base: Decimal, exponent: int) -> Decimal:
    """By repeated multiplication, rounded each time, which any decimal library does alike."""
    result = base
    for _ in range(exponent - 1):
        result = Decimal(two_numbers("mul", result, base))
    return result


def one_value(step: str, name: str, names: Names) -> Decimal:
    if not step and name in names.figures:
        return names.figures[name]
    values = names.readings(step, name)
    if not values:
        raise MissingValueError(f"no {step + '.' if step else ''}{name}")
    if any(value != values[0] for value in values):
        raise FormulaError(f"readings of {name} disagree")
    return values[0]


def call_value(tree: Tree, names: Names, depth: int) -> Decimal:
    function = tree[1]
    if function in ON_READINGS:
        item = tree[2]
        step, name = ("", item[1]) if item[0] == "name" else (item[1], item[2])
        return over_readings(function, names.readings(step, name), name)
    values = [number(part, names, depth) for part in tree[2:]]
    match function:
        case "min":
            return min(values)
        case "max":
            return max(values)
        case "abs":
            return abs(values[0])
        case "sqrt" if values[0] >= 0:
            return CONTEXT.sqrt(values[0])
        case "sqrt":
            raise FormulaError("square root of a negative value")
    if function in OF_THE_TRADE and len(values) == OF_THE_TRADE[function][0]:
        try:
            return bounded(OF_THE_TRADE[function][1](*values))
        except welding.NoAnswerError as error:
            raise FormulaError(str(error)) from None
    raise FormulaError(f"there is no function {function}()")


def over_readings(function: str, values: list[Decimal], name: str) -> Decimal:
    if function == "count":
        return Decimal(len(values))
    if not values:
        raise MissingValueError(f"no {name}")
    if function == "spread" and len(values) < 2:
        raise MissingValueError(f"only one {name}")
    match function:
        case "largest":
            return max(values)
        case "smallest":
            return min(values)
        case "spread":
            return CONTEXT.subtract(max(values), min(values))
    total = Decimal(0)
    for value in values:
        total = CONTEXT.add(total, value)
    return CONTEXT.divide(total, Decimal(len(values)))


def table_value(name: str, x: Decimal, names: Names, depth: int) -> Decimal:
    """The value of the last row whose step is reached. A row says 'from' (reached at its edge) or 'after' (past it).

    One without a value ends the table, or leaves a hole in it.
    """
    table = names.tables.get(name)
    if table is None:
        raise FormulaError(f"there is no table '{name}'")
    reached = None
    for row in table["rows"]:
        edge = number(row["edge"], names, depth)
        if x > edge or (x == edge and row["reached"] == "from"):
            reached = row
    if reached is None:
        raise FormulaError(f"table '{name}' begins above the value")
    if reached["value"] is None:
        raise FormulaError(f"table '{name}' has no value there")
    return number(reached["value"], names, depth)
