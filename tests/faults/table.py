"""What a fault test came to, and the one table of all of them."""

from collections.abc import Iterable
from dataclasses import dataclass, fields


@dataclass(frozen=True)
class Row:
    """lost: acknowledged or saved, and not on the server. doubled: there more than once. forks: not made by us."""

    test: str
    database: str
    records: int
    photos: int
    kills: int
    acknowledged: int
    lost: int
    doubled: int
    gaps: int
    forks: int
    seconds: float
    faults: str = ""

    @property
    def good(self) -> bool:
        return not (self.lost or self.doubled or self.gaps or self.forks or self.faults)


HEADS = {"forks": "forks not made by us", "seconds": "time", "faults": ""}


def as_text(rows: Iterable[Row]) -> str:
    """One line a row, in columns."""
    names = [one.name for one in fields(Row)]
    lines = [[HEADS.get(name, name) for name in names]]
    for row in rows:
        values = {**row.__dict__, "seconds": f"{row.seconds:.0f} s", "faults": " ".join(row.faults.split())[:100]}
        lines.append([f"{values[name]:,}" if isinstance(values[name], int) else str(values[name]) for name in names])
    widths = [max(len(line[place]) for line in lines) for place in range(len(names))]
    return "\n".join(
        "  ".join(cell.ljust(width) if place < 2 else cell.rjust(width) for place, (cell, width) in
                  enumerate(zip(line, widths, strict=True))).rstrip()
        for line in lines
    )  # fmt: skip
