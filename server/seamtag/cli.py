"""The command line: what an office or a timer does with the server."""

import json
import time
from pathlib import Path

import click
from flask import Flask

from seamtag import create_app
from seamtag.database import db, migrate, writing
from seamtag.settings import Settings, from_environment


def opened() -> Flask:
    app = create_app(from_environment())
    migrate(app)
    from seamtag.sync.epoch import set_up

    with app.app_context(), writing() as session:
        set_up(session)
    return app


@click.group()
def main() -> None:
    """Seamtag: the inspection record of a shop that welds boilers and pressure vessels."""


@main.command("migrate")
def migrate_command() -> None:
    """Bring the database to the newest schema."""
    opened()
    click.echo("The database is up to date.")


@main.command()
@click.option("--host", default="127.0.0.1", show_default=True)
@click.option("--port", default=8000, show_default=True)
@click.option("--threads", default=4, show_default=True)
def serve(host: str, port: int, threads: int) -> None:
    """Serve the app and its interface."""
    from granian.constants import Interfaces
    from granian.server import Server

    opened()
    Server("seamtag:create_app", factory=True, address=host, port=port, interface=Interfaces.WSGI,
           blocking_threads=threads, log_enabled=False).serve()  # fmt: skip


@main.command()
@click.argument("person")
def invite(person: str) -> None:
    """A new one-time invitation for PERSON."""
    from seamtag.people import staff

    app = opened()
    with app.app_context(), writing() as session:
        life = app.config["SEAMTAG"].invitation_life
        try:
            click.echo(staff.invite(session, person, int(time.time()), life))
        except staff.InvitationError as error:
            raise click.ClickException(str(error)) from None


@main.group()
def plan() -> None:
    """Inspection and test plans."""


@plan.command("check")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def plan_check(file: Path) -> None:
    """Say every fault of a plan's FILE, with its place."""
    from seamtag.plans.reading import PlanError, read

    try:
        document = read(file.read_text(encoding="utf-8", errors="replace"))
    except PlanError as error:
        for fault in error.faults:
            click.echo(fault, err=True)
        raise SystemExit(1) from None
    items = sum(len(step["items"]) for step in document["steps"])
    click.echo(f"{document['title']}: {len(document['steps'])} steps, {items} items, no faults.")


@plan.command("publish")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def plan_publish(file: Path) -> None:
    """Publish a plan's FILE as the next revision."""
    from seamtag.plans.publishing import publish
    from seamtag.plans.reading import PlanError, read

    app = opened()
    try:
        document = read(file.read_text(encoding="utf-8", errors="replace"))
    except PlanError as error:
        raise click.ClickException("Not published.\n" + "\n".join(error.faults)) from None
    with app.app_context(), writing() as session:
        revision = publish(session, document, int(time.time()))
        click.echo(f"{revision.code} revision {revision.revision} is published, {revision.hash[:12]}.")


@main.command("label")
@click.argument("code")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
def label_command(code: str, file: Path) -> None:
    """Write the label of the tag CODE as a PNG FILE."""
    from seamtag.core.tagcode import forgiven
    from seamtag.jobs.models import Piece
    from seamtag.tags.label import as_png, label
    from seamtag.tags.models import Tag

    app = opened()
    with app.app_context():
        tag = db.session.get(Tag, forgiven(code) or "")
        piece = db.session.get(Piece, tag.piece) if tag else None
        if tag is None or piece is None:
            raise click.ClickException(f"No tag of this shop has the code '{code}'.")
        host = app.config["SEAMTAG"].host
        file.write_bytes(as_png(label(host, tag.code, piece.mark, piece.job, piece.kind)))


@main.command("openapi")
def openapi() -> None:
    """Print the description of the interface."""
    client = create_app(Settings(database="sqlite://", photos="memory:///")).test_client()
    click.echo(json.dumps(client.get("/openapi.json").get_json(), indent=2, sort_keys=True, ensure_ascii=False))
