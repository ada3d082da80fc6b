"""Both cores on the same cases, and where they differ."""

import json
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from threading import Thread
from typing import Any

from tests.core.differential.answers import answer
from tests.core.differential.cases import Case, cases

TOP = Path(__file__).parents[3]
BUILT = TOP / "webapp" / "build" / "core.js"
SOURCES = TOP / "webapp" / "src" / "core"
BUILD = "npm --prefix webapp run core"
BATCH = 500
NEAR = 1e-9


def why_not_built() -> str:
    """'' where the TypeScript core is built, and from what its sources are now."""
    sources = [path for path in SOURCES.glob("*.ts") if not path.name.endswith(".test.ts")]
    if not BUILT.is_file() or max(path.stat().st_mtime for path in sources) > BUILT.stat().st_mtime:
        return f"{BUILT.relative_to(TOP)} is missing, or older than its sources. Build it: {BUILD}"
    return ""


class TypeScript:
    """The built core in one Node.js process, which answers batches. To be used in a 'with'."""

    def __enter__(self) -> "TypeScript":
        self.node = subprocess.Popen(
            ["node", str(BUILT)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8", bufsize=1 << 20
        )
        return self

    def __exit__(self, *_: object) -> None:
        assert self.node.stdin
        assert self.node.stdout
        self.node.stdin.close()
        self.node.stdout.close()
        self.node.wait(10)

    def ask(self, asked: list[Case]) -> Thread:
        """Send a batch beside whatever comes next; its answers must be read before the next is sent."""
        sending = Thread(target=self.send, args=[asked])
        sending.start()
        return sending

    def send(self, asked: list[Case]) -> None:
        assert self.node.stdin
        self.node.stdin.write("".join(json.dumps(case) + "\n" for case in asked))
        self.node.stdin.flush()

    def answers(self, count: int) -> list[Any]:
        assert self.node.stdout
        lines = [self.node.stdout.readline() for _ in range(count)]
        if not lines[-1]:
            raise RuntimeError(f"Node.js has ended: {self.node.wait(10)}")
        return [json.loads(line) for line in lines]


@dataclass
class Tally:
    """What was asked and answered: differences, verdict words, and how many lay exactly at a limit."""

    cases: int = 0
    differences: list[str] = field(default_factory=list)
    verbs: Counter[str] = field(default_factory=Counter)
    words: Counter[str] = field(default_factory=Counter)
    errors: int = 0
    at_a_limit: int = 0

    def add(self, case: Case, python: Any, typescript: Any) -> None:
        self.cases += 1
        self.verbs[case["verb"]] += 1
        self.errors += is_error(python)
        for word, margin in verdicts_in(python):
            self.words[word] += 1
            self.at_a_limit += margin == "0"
        where = difference(python, typescript)
        if where or "crash" in (python or {}):
            self.differences.append(
                f"{where or 'both crash'}\n  case: {json.dumps(case)}\n  Python: {json.dumps(python)}\n"
                f"  TypeScript: {json.dumps(typescript)}"
            )

    def __str__(self) -> str:
        verdicts = sum(self.words.values()) or 1
        shares = ", ".join(f"{word} {count / verdicts:.1%}" for word, count in self.words.most_common())
        verbs = ", ".join(f"{verb} {count}" for verb, count in self.verbs.most_common())
        return (
            f"{self.cases} cases ({verbs}), {self.errors / max(1, self.cases):.1%} of them errors\n"
            f"{verdicts} verdicts: {shares}; exactly at a limit {self.at_a_limit / verdicts:.1%}\n"
            f"{len(self.differences)} differences"
        )


def is_error(found: Any) -> bool:
    return found is None or "error" in found or found.get("word") == "unjudged"


def verdicts_in(found: Any) -> Iterator[tuple[str, str | None]]:
    """The words of the values judged and worked out, and their margins."""
    if found and "word" in found:
        yield found["word"], found["margin"]
    for item in (found or {}).get("items", {}).values():
        yield from ((judgement["word"], judgement["margin"]) for _, _, judgement in item["derived"])


def difference(one: Any, other: Any, where: str = "") -> str:
    """Where two answers differ; probabilities are alike within 1e-9, all else to the letter."""
    if isinstance(one, dict) and isinstance(other, dict):
        found = next((f"only one has {where}.{key}" for key in one.keys() ^ other.keys()), "")
        return found or next((d for key in one if (d := difference(one[key], other[key], f"{where}.{key}"))), "")
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return next((d for place, pair in enumerate(zip(one, other, strict=True))
                     if (d := difference(*pair, f"{where}[{place}]"))), "")  # fmt: skip
    if where.endswith(".probability") and isinstance(one, int | float) and isinstance(other, int | float):
        return "" if abs(one - other) <= NEAR else f"{where}: {one} and {other}"
    return "" if type(one) is type(other) and one == other else f"{where}: {one} and {other}"


def compare(typescript: TypeScript, seed: int, count: int, tally: Tally) -> None:
    """A batch of cases made from a seed; both cores work at the same time."""
    asked = cases(seed, count)
    sending = typescript.ask(asked)
    python = [json.loads(json.dumps(answer(case))) for case in asked]
    answered = typescript.answers(count)
    sending.join()
    for case, one, other in zip(asked, python, answered, strict=True):
        tally.add(case, one, other)
