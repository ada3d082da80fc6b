"""Rows derived from records, brought up to date: only what differs is written."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import ColumnElement, delete, insert, inspect, select, tuple_
from sqlalchemy.orm import DeclarativeBase, Session

AT_ONCE = 500
"""Keys named in one statement."""

Row = dict[str, Any]

Stamps = Mapping[str, tuple[int, int]]
"""Number in the chain and second of receipt of each record, by its id."""


def bring_up_to_date(
    session: Session,
    model: type[DeclarativeBase],
    where: Sequence[ColumnElement[bool]],
    wanted: Iterable[Row],
    kept: Sequence[str] = (),
) -> tuple[list[Row], list[Row]]:
    """Make the rows that a condition finds those that are wanted, inside a writing transaction.

    wanted: rows as dicts with every column. kept: columns that a row which is there already keeps as they are. Returns
    the rows written, and those that are gone or were written anew, as they were.
    """
    columns = [str(column.key) for column in inspect(model).columns]
    key = [str(column.key) for column in inspect(model).primary_key]
    compared = [name for name in columns if name not in kept]
    found = session.execute(select(*(getattr(model, name) for name in columns)).where(*where)).mappings()
    stored = {tuple(row[name] for name in key): dict(row) for row in found}
    written, gone = [], []
    for row in {tuple(one[name] for name in key): one for one in wanted}.values():
        old = stored.pop(tuple(row[name] for name in key), None)
        if old is not None and all(old[name] == row[name] for name in compared):
            continue
        if old is not None:
            gone.append(old)
            row = {**row, **{name: old[name] for name in kept}}
        written.append(row)
    gone += stored.values()
    names = tuple_(*(getattr(model, name) for name in key))
    for start in range(0, len(gone), AT_ONCE):
        keys = [tuple(row[name] for name in key) for row in gone[start : start + AT_ONCE]]
        session.execute(delete(model).where(names.in_(keys)), execution_options={"synchronize_session": False})
    if written:
        session.execute(insert(model), written)
    return written, gone
