"""Commands about welding: procedures and qualifications from files, and who lapses when."""

import time
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import click
import yaml
from sqlalchemy.orm import Session

from seamtag.database import db, writing
from seamtag.fields import FieldError

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
Put = Callable[[Session, list[Any], int], list[Any]]


def put_file(file: Path, key: str, put: Put) -> int:
    """Put what a file lists under a key, all of it or nothing; how many there were."""
    from seamtag.cli import opened

    try:
        source = yaml.safe_load(file.read_text(encoding="utf-8", errors="replace"))
    except (yaml.YAMLError, ValueError, RecursionError):
        raise click.ClickException(f"{file} is not YAML.") from None
    rows = source.get(key) if isinstance(source, dict) else None
    if not isinstance(rows, list) or not rows:
        raise click.ClickException(f"{file} has no list under '{key}:'.")
    app = opened()
    try:
        with app.app_context(), writing() as session:
            return len(put(session, rows, int(time.time())))
    except FieldError as error:
        raise click.ClickException("Nothing was kept.\n" + "\n".join(error.faults)) from None


@click.command("procedures")
@click.argument("file", type=FILE)
def procedures_command(file: Path) -> None:
    """Keep the welding procedures that a FILE (YAML) lists under 'procedures:', and judge the passes logged anew."""
    from seamtag.procedures.book import put

    click.echo(f"{put_file(file, 'procedures', put)} procedures are kept.")


@click.command("qualifications")
@click.argument("file", type=FILE)
def qualifications_command(file: Path) -> None:
    """Keep the welders' qualifications that a FILE (YAML) lists under 'qualifications:', and flag passes anew."""
    from seamtag.people.qualifications import put

    click.echo(f"{put_file(file, 'qualifications', put)} qualifications are kept.")


@click.command("continuity")
@click.option("--days", type=click.IntRange(1, 3650), help="Only what lapses within so many days, or has lapsed.")
def continuity_command(days: int | None) -> None:
    """When each welder's qualification for a process lapses, the first to lapse first."""
    from seamtag.cli import opened
    from seamtag.people.qualifications import continuity
    from seamtag.review.calendar import time_zone

    with opened().app_context():
        today = datetime.now(time_zone(db.session())).date()
        found = continuity(db.session(), today.isoformat())
    until = None if days is None else (today + timedelta(days=days)).isoformat()
    shown = [one for one in found if until is None or one.lapses <= until]
    for one in shown:
        left = (date.fromisoformat(one.lapses) - today).days
        says = f"lapsed on {one.lapses}" if one.lapsed else f"lapses on {one.lapses}, in {left} day{'s' * (left != 1)}"
        click.echo(f"{one.process:5} {one.stamp:6} {one.name}: last proof {one.last}, {says}")
    if not shown:
        click.echo("No qualification lapses." if found else "No qualification is kept.")
