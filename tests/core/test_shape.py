"""The shape of the code: short functions, short files, a core that leans on nothing."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
MOST_LINES_OF_FUNCTION = 70
MOST_LINES_OF_FILE = 500
NOT_OURS = {".venv", "node_modules", "dist", "dev-dist", "build", "__pycache__", ".git", "instance", ".demo"}
GENERATED = {"webapp/src/api/schema.d.ts"}


def files(*suffixes: str, under: tuple[str, ...] = (".",)) -> list[Path]:
    found = [path for place in under for path in (TOP / place).rglob("*") if path.suffix in suffixes]
    ours = [path for path in found if not NOT_OURS & set(path.relative_to(TOP).parts)]
    return [path for path in ours if path.relative_to(TOP).as_posix() not in GENERATED]


def functions(path: Path) -> Iterator[tuple[str, int]]:
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield f"{path.relative_to(TOP)}:{node.lineno} {node.name}", (node.end_lineno or 0) - node.lineno + 1


def test_no_function_is_too_long() -> None:
    found = [one for path in files(".py", under=("server", "seed_demo")) for one in functions(path)]
    assert len(found) > 100
    assert [name for name, lines in found if lines > MOST_LINES_OF_FUNCTION] == []


def test_no_file_is_too_long() -> None:
    lines = {str(p.relative_to(TOP)): len(p.read_text().splitlines()) for p in files(".py", ".ts", ".tsx", ".css")}
    assert len(lines) > 20
    assert {name: count for name, count in lines.items() if count > MOST_LINES_OF_FILE} == {}


CORE = sorted((TOP / "server" / "seamtag" / "core").glob("*.py"))


@pytest.mark.parametrize("path", CORE, ids=lambda path: path.name)
def test_the_core_imports_only_itself_and_the_standard_library(path: Path) -> None:
    for name in imported(ast.parse(path.read_text())):
        assert name.split(".")[0] in sys.stdlib_module_names or f"{name}.".startswith("seamtag.core."), name


@pytest.mark.parametrize("path", CORE, ids=lambda path: path.name)
def test_the_core_has_no_clock_no_chance_no_files_and_no_network(path: Path) -> None:
    outside = {"time", "datetime", "random", "secrets", "os", "io", "pathlib", "socket", "urllib", "http", "sqlite3",
               "threading", "asyncio", "subprocess", "logging", "uuid"}  # fmt: skip
    tree = ast.parse(path.read_text())
    assert not outside & {name.split(".")[0] for name in imported(tree)}
    called = {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    assert not called & {"open", "print", "input", "eval", "exec", "__import__"}


def imported(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written in full"
            module = str(node.module)
            yield from [f"{module}.{alias.name}" for alias in node.names] if module == "seamtag" else [module]


def test_a_start_loads_nothing_that_only_some_answers_need(tmp_path: Path) -> None:
    """Together they take as long as half of all else that a start of the server or of a command loads."""
    start = "import sys, seamtag.cli; from seamtag import create_app; create_app(); print(*sys.modules)"
    made = subprocess.run([sys.executable, "-c", start], cwd=tmp_path, check=True, capture_output=True, text=True)
    loaded = made.stdout.split()
    assert {"seamtag.trends.routes", "seamtag.review.report_routes", "seamtag.plans.fitting"} <= {*loaded}
    assert {"numpy", "scipy", "openpyxl", "pint"} & {*loaded} == set()
