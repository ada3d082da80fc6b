"""Commands about the day: its report into a folder, as a timer calls it, and the shop's name, zone and shifts."""

import os
import re
import time
from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import available_timezones

import click
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.orm import Session

from seamtag.database import db, writing
from seamtag.review.calendar import Day, day_of, shifts_of, time_zone
from seamtag.sync.models import Mark
from seamtag.sync.shop import name_shop

JUST_ENDED = timedelta(hours=2)
"""So long after a day has begun the report is of the day before it, where none is named."""
MOST_NAME = 200


@click.command("report")
@click.option(
    "--day", default="", help="As 2026-11-25. Without it the shop's day; in its first two hours the one before."
)
@click.option("--shift", type=click.IntRange(0), default=0, help="The number of a shift, from 1; else the whole day.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@click.argument("folder", type=click.Path(path_type=Path))
def report_command(day: str, shift: int, paper: str, folder: Path) -> None:
    """Write the report of a day or a shift into FOLDER, as PDF and XLSX; what is there of that day is written over."""
    from seamtag.cli import opened
    from seamtag.review.overdue import look_back
    from seamtag.review.report import report_of
    from seamtag.review.report_pdf import report_pdf
    from seamtag.review.report_xlsx import report_xlsx

    if not folder.is_dir():
        raise click.ClickException(f"There is no folder {folder}. Make it first, or name another.")
    try:
        app = opened()
        with app.app_context():
            look_back(int(time.time()))
            session = db.session()
            report = report_of(session, wanted_day(session, day, shift), app.config["SEAMTAG"].report_days)
            files = {f"{report.name}.pdf": report_pdf(report, paper), f"{report.name}.xlsx": report_xlsx(report)}
    except SQLAlchemyError as error:
        raise click.ClickException(f"The database cannot be read: {str(error).splitlines()[0][:200]}") from None
    try:
        for path in written(folder, files):
            click.echo(path)
    except OSError as error:
        raise click.ClickException(f"The report cannot be written into {folder}: {error.strerror}.") from None


def wanted_day(session: Session, day: str, shift: int, now: datetime | None = None) -> Day:
    """The day named; else the one that it is, or in its first hours the one that has just ended."""
    moment = now or datetime.now(time_zone(session))
    try:
        return day_of(session, day, shift, moment if day else moment - JUST_ENDED)
    except ValueError:
        many = len(shifts_of(session))
        there = f"Shifts are 1 to {many}." if many else "The shop has no shifts; `seamtag shop --shifts` sets them."
        raise click.ClickException(
            f"There is no day '{day}' or no shift {shift}. Write a day as 2026-11-25. {there}"
        ) from None


def written(folder: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Write files whole or not at all: each under another name first, and renamed once all are on the disk. Raises
    OSError."""
    parts = {name: folder / f".{name}.{os.getpid()}.part" for name in files}
    try:
        for name, content in files.items():
            with parts[name].open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
        return [parts[name].replace(folder / name) for name in files]
    finally:
        for part in parts.values():
            with suppress(OSError):
                part.unlink()


@click.command("shop")
@click.option("--name", help="The name of the shop, as it stands on its papers.")
@click.option("--time-zone", "zone", help="By its IANA name, as America/New_York.")
@click.option("--shifts", help="When shifts begin, as 06:00,14:00,22:00; the first begins the day. '' for none.")
def shop_command(name: str | None, zone: str | None, shifts: str | None) -> None:
    """Say the shop's name, time zone and shifts, or set those that are given; the rest stays as it is."""
    from seamtag.cli import opened

    given = {"name": named(name), "time_zone": zoned(zone), "shifts": None if shifts is None else begins_of(shifts)}
    app = opened()
    with app.app_context(), writing() as session:
        old = shop_now(session)
        new = {**old, **{key: value for key, value in given.items() if value is not None}}
        if new != old and not new["name"]:
            raise click.ClickException("The shop has no name yet. Give it one with --name.")
        if new != old:
            name_shop(session, new["name"], new["time_zone"], int(time.time()), shifts=new["shifts"])
    if new != old:
        click.echo("Set, as an entry of the chain.")
    click.echo(f"{new['name'] or 'No name yet'}, {new['time_zone']}")
    click.echo(f"Shifts from {', '.join(new['shifts'])}" if new["shifts"] else "No shifts: the day begins at 00:00")


def shop_now(session: Session) -> dict[str, Any]:
    mark = session.get(Mark, "shop")
    return {"name": mark.value if mark else "", "time_zone": time_zone(session).key, "shifts": shifts_of(session)}


def named(text: str | None) -> str | None:
    name = None if text is None else " ".join(text.split())
    if name is not None and not (0 < len(name) <= MOST_NAME and name.isprintable()):
        raise click.ClickException(f"--name must have 1 to {MOST_NAME} characters that can be printed.")
    return name


def zoned(text: str | None) -> str | None:
    if text is not None and text not in available_timezones():
        raise click.ClickException(f"There is no time zone '{text[:60]}'. Write its IANA name, as America/New_York.")
    return text


def begins_of(text: str) -> list[str]:
    """When shifts begin, in order from the first, which begins the day; the last may run past midnight."""
    found = [one.strip() for one in text.split(",")] if text.strip() else []
    for one in found:
        if not re.fullmatch(r"([01]\d|2[0-3]):[0-5]\d", one):
            raise click.ClickException(f"'{one[:20]}' is no time of a day. Write shifts as 06:00,14:00,22:00.")
    after_first = [minutes_after(found[0], one) for one in found]
    if after_first != sorted(set(after_first)):
        raise click.ClickException(f"The shifts {', '.join(found)} are not in order. Begin with the first of the day.")
    return found


def minutes_after(first: str, later: str) -> int:
    minutes = [int(one[:2]) * 60 + int(one[3:]) for one in (first, later)]
    return (minutes[1] - minutes[0]) % (24 * 60)
