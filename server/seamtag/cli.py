"""The command line: what an office or a timer does with the server."""

import json
import time
from pathlib import Path

import click
from flask import Flask

from seamtag import create_app
from seamtag.database import db, migrate, writing
from seamtag.procedures.commands import continuity_command, procedures_command, qualifications_command
from seamtag.review.commands import report_command, shop_command
from seamtag.settings import Settings, from_environment


def opened() -> Flask:
    app = create_app(from_environment())
    migrate(app)
    from seamtag.records.rejudging import derive_anew
    from seamtag.sync.epoch import set_up

    with app.app_context():
        with writing() as session:
            set_up(session)
        derive_anew()
    return app


@click.group()
def main() -> None:
    """Seamtag: the inspection record of a shop that welds boilers and pressure vessels."""


@main.command("migrate")
def migrate_command() -> None:
    """Bring the database to the newest schema."""
    opened()
    click.echo("The database is up to date.")


PORT = click.IntRange(1, 65535)
FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@main.command()
@click.option("--host", help="Address to listen at: 127.0.0.1, with --lan or --cert every address of this computer.")
@click.option("--port", type=PORT, help="8000, with --lan or --cert 8443.")
@click.option("--threads", default=4, show_default=True)
@click.option("--lan", is_flag=True, help="For phones of this network: https by an authority of this computer's own.")
@click.option("--http-port", type=PORT, default=8080, show_default=True,
              help="With --lan: of the page that makes a phone ready.")  # fmt: skip
@click.option("--cert", type=FILE, help="Serve over https with this certificate and its chain (PEM); takes --key.")
@click.option("--key", type=FILE, help="The key of --cert (PEM).")
def serve(
    host: str | None, port: int | None, threads: int, lan: bool, http_port: int, cert: Path | None, key: Path | None
) -> None:
    """Serve the app and its interface."""
    from seamtag.guard import lan as https
    from seamtag.guard.certificates import CertificateError

    if (cert is None) != (key is None):
        raise click.ClickException("--cert and --key belong together. Give both.")
    secure = lan or cert is not None
    place = https.Place(
        host or (https.everywhere() if secure else "127.0.0.1"), port or (8443 if secure else 8000), threads, http_port
    )
    if lan and place.port == http_port:
        raise click.ClickException("--port and --http-port must be two different numbers.")
    app = opened()
    try:
        if cert and key:
            https.serve_given(place, cert, key)
        elif lan:
            https.serve_lan(app, place)
        else:
            https.granian(place).serve()
    except CertificateError as error:
        raise click.ClickException(str(error)) from None


@main.command()
@click.argument("person")
def invite(person: str) -> None:
    """A new one-time invitation for PERSON: its code, and beside it what the phone scans."""
    from seamtag.guard.lan import qr
    from seamtag.people import staff

    app = opened()
    settings = app.config["SEAMTAG"]
    try:
        with app.app_context(), writing() as session:
            code = staff.invite(session, person, int(time.time()), settings.invitation_life)
    except staff.InvitationError as error:
        raise click.ClickException(str(error)) from None
    click.echo(code)
    address = staff.address_of(settings.host, code)
    click.echo(f"Scan this with the phone, or open {address} there.\n{qr(address)}", err=True)


@main.command()
@click.option("--count", type=click.IntRange(1, 500), default=8, show_default=True)
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), required=True, help="A new file (HTML).")
def badges(count: int, out: Path) -> None:
    """Write a page of COUNT blank badges to print. Nothing of them is kept on this computer but that file."""
    from seamtag.people.badges import page, write_for_owner

    try:
        write_for_owner(out, page(count))
    except FileExistsError:
        raise click.ClickException(f"{out} is there already. Badges once printed are not written over.") from None
    except OSError as error:
        raise click.ClickException(f"{out} cannot be written: {error.strerror}.") from None
    click.echo(f"{count} badges are in {out}. Print it, then delete it: whoever has a symbol has the badge.")


@main.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path))
def backup(folder: Path) -> None:
    """Write a backup into FOLDER, read it back, and tell the phones what it covers."""
    from seamtag.sync.restoring import BackupError, back_up

    app = opened()
    with app.app_context():
        try:
            found = back_up(db.session(), app.extensions["vault"], folder)
        except (BackupError, OSError) as error:
            raise click.ClickException(f"No backup was made. {error}") from None
    click.echo(f"Entries 1 to {found.number}, head {found.hash[:12]}; {found.photos} photos; read back and checked.")
    if found.missing:
        raise click.ClickException(f"{found.missing} photos are gone from the server. Run `seamtag verify`.")


@main.command()
@click.argument("folder", type=click.Path(exists=True, file_okay=False, path_type=Path))
def restore(folder: Path) -> None:
    """Make an empty server of the backup in FOLDER. Phones then send again what it does not hold."""
    from seamtag.sync.restoring import BackupError
    from seamtag.sync.restoring import restore as made_of

    app = opened()
    with app.app_context():
        try:
            found = made_of(app.extensions["vault"], folder, int(time.time()))
        except (BackupError, OSError) as error:
            raise click.ClickException(f"Nothing was restored. {error}") from None
    click.echo(f"Restored: entries 1 to {found.number}, head {found.hash[:12]}; {found.photos} photos.")


@main.command()
@click.option("--head", "heads", multiple=True, metavar="NUMBER:HASH",
              help="A head from a printed report or a phone, which the chain must still hold.")  # fmt: skip
def verify(heads: tuple[str, ...]) -> None:
    """Check the chain, every key's chain, every photo and every derived row. Exit status 1 on any fault."""
    from seamtag.sync import chain
    from seamtag.sync.verifying import verify as faults

    app = opened()
    known = dict(map(head_of, heads))
    with app.app_context():
        found = list(faults(db.session(), app.extensions["vault"], known))
        number, digest = chain.head(db.session())
    for one in found:
        click.echo(f"{one.kind}: {one.where} {one.says}.")
    click.echo(f"{len(found)} faults. Head {number}:{digest}")
    if found:
        raise SystemExit(1)


def head_of(text: str) -> tuple[int, str]:
    number, _, digest = text.partition(":")
    if not number.isdigit() or len(digest) != 64:
        raise click.ClickException(f"'{text[:80]}' is no head. Write its number, a colon and its 64 digits.")
    return int(number), digest


@main.command()
@click.argument("job", default="")
def rejudge(job: str) -> None:
    """Judge the records of JOB anew, or of all jobs, and say which verdicts have changed."""
    from seamtag.records.rejudging import rejudge as changes

    app = opened()
    with app.app_context():
        count = 0
        for change in changes(job):
            count += 1
            click.echo(f"{change.job} {change.piece} {change.id}: {change.before}, now {change.after}")
    click.echo(f"{count} verdicts have changed.")


@main.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--adopt-keys", is_flag=True, help="Enrol the phone's keys that a restored server has lost.")
def intake(file: Path, adopt_keys: bool) -> None:
    """Take in the records and photos of a FILE that a phone has exported."""
    from seamtag.records.carrying import take_in_file

    app = opened()
    with app.app_context():
        counts = take_in_file(app.extensions["vault"], file, adopt_keys)
    for what, count in counts.items():
        click.echo(f"{what}: {count}")
    if counts.get("unreadable") or counts.get("photos damaged"):
        raise SystemExit(1)


@main.command("shut-out")
@click.argument("device")
@click.option("--since", required=True, help="Since when what it made is in doubt, as 2026-11-25T14:00:00-06:00.")
@click.option("--reason", required=True)
def shut_out_command(device: str, since: str, reason: str) -> None:
    """Shut out a lost phone, by the name of its DEVICE."""
    from datetime import datetime

    from seamtag.people.shutting import ShutError, shut_out
    from seamtag.review.flagging import flag_device

    app = opened()
    now = int(time.time())
    try:
        moment = datetime.fromisoformat(since)
        if moment.tzinfo is None:
            raise ValueError
        with app.app_context(), writing() as session:
            kids = shut_out(session, device, int(moment.timestamp()), reason, now)
            flag_device(session, device, now)
    except ShutError as error:
        raise click.ClickException(str(error)) from None
    except ValueError:
        raise click.ClickException(f"'{since}' is no moment with its offset, as 2026-11-25T14:00:00-06:00.") from None
    click.echo(f"{device} is shut out with {len(kids)} keys.")


@main.group()
def plan() -> None:
    """Inspection and test plans."""


@plan.command("check")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def plan_check(file: Path) -> None:
    """Say every fault of a plan's FILE, with its place."""
    from seamtag.plans.files import document_of
    from seamtag.plans.reading import PlanError

    try:
        document = document_of(file.read_bytes())
    except PlanError as error:
        for fault in error.faults:
            click.echo(fault, err=True)
        raise SystemExit(1) from None
    items = sum(len(step["items"]) for step in document["steps"])
    click.echo(f"{document['title']}: {len(document['steps'])} steps, {items} items, no faults.")


@plan.command("try")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--figure", "figures", multiple=True, metavar="NAME=VALUE", help="A design figure, such as t=5/8.")
@click.option("--reading", "readings", multiple=True, metavar="ITEM=VALUE",
              help="A reading, such as offset=5/32, girth_fit.offset@3='4 mm'.")  # fmt: skip
@click.option("--uncertainty", "uncertainties", multiple=True, metavar="ITEM=U",
              help="Expanded uncertainty of the item's gauge, in the item's uom.")  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def plan_try(
    file: Path, figures: tuple[str, ...], readings: tuple[str, ...], uncertainties: tuple[str, ...], as_json: bool
) -> None:
    """Try the limits of a plan's FILE: figures and readings in, limits and verdicts out. Nothing is kept."""
    from seamtag.plans import trying
    from seamtag.plans.files import document_of
    from seamtag.plans.reading import PlanError

    try:
        document = document_of(file.read_bytes())
        trial = trying.Trial(document, dict(map(trying.figure_of, figures)), dict(map(trying.figure_of, uncertainties)))
        answers = trial.answers([trying.reading_of(text) for text in readings])
    except PlanError as error:
        raise click.ClickException("The plan has faults.\n" + "\n".join(error.faults)) from None
    except trying.TryError as error:
        raise click.ClickException(str(error)) from None
    if as_json:
        click.echo(json.dumps([trying.as_data(answer) for answer in answers], indent=2, ensure_ascii=False))
        return
    click.echo("\n\n".join(trying.as_text(answer) for answer in answers) or "No item of the plan has a limit.")


@plan.command("publish")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def plan_publish(file: Path) -> None:
    """Publish a plan's FILE as the next revision."""
    from seamtag.plans.files import document_of
    from seamtag.plans.publishing import publish
    from seamtag.plans.reading import PlanError

    app = opened()
    try:
        document = document_of(file.read_bytes())
    except PlanError as error:
        raise click.ClickException("Not published.\n" + "\n".join(error.faults)) from None
    with app.app_context(), writing() as session:
        revision = publish(session, document, int(time.time()))
        click.echo(f"{revision.code} revision {revision.revision} is published, {revision.hash[:12]}.")


@plan.command("template")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
def plan_template(file: Path) -> None:
    """Write a workbook to begin a plan with into FILE: a small example, and hints at the columns."""
    from seamtag.plans.files import template

    file.write_bytes(template())
    click.echo(f"{file} is written. Fill it in, then: seamtag plan check {file.name}")


@plan.command("export")
@click.argument("code")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@click.option("--revision", type=int, help="Which revision; the last where none is named.")
def plan_export(code: str, file: Path, revision: int | None) -> None:
    """Write plan CODE into FILE: a workbook where its name ends in .xlsx, else YAML."""
    from seamtag.plans.files import file_of
    from seamtag.plans.publishing import published

    app = opened()
    with app.app_context():
        found = published(db.session(), code, revision)
        if found is None:
            which = f"revision {revision} of plan" if revision else "plan"
            raise click.ClickException(f"There is no {which} '{code}' in this shop.")
        file.write_bytes(file_of(found.document, file.name))
    click.echo(f"{found.code} revision {found.revision} is in {file}.")


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


@main.command("sticker")
@click.argument("gauge")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
def sticker_command(gauge: str, file: Path) -> None:
    """Write the sticker of a GAUGE, to be scanned where a reading asks for it, as a PNG FILE."""
    from seamtag.gauges.models import Gauge
    from seamtag.tags.label import as_png
    from seamtag.tags.stickers import gauge_sticker

    app = opened()
    with app.app_context():
        found = db.session.get(Gauge, gauge)
        if found is None:
            raise click.ClickException(f"There is no gauge '{gauge}' in this shop.")
        file.write_bytes(as_png(gauge_sticker(app.config["SEAMTAG"].host, found.id, found.name)))


@main.command("board")
@click.argument("job")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
def board_command(job: str, file: Path) -> None:
    """Write the board of a JOB, whose symbol opens the list of its marks, as a PNG FILE."""
    from seamtag.jobs.models import Job
    from seamtag.tags.label import as_png
    from seamtag.tags.stickers import job_board

    app = opened()
    with app.app_context():
        found = db.session.get(Job, job)
        if found is None:
            raise click.ClickException(f"There is no job '{job}' in this shop.")
        file.write_bytes(as_png(job_board(app.config["SEAMTAG"].host, found.id, found.title)))


main.add_command(procedures_command)
main.add_command(qualifications_command)
main.add_command(continuity_command)
main.add_command(report_command)
main.add_command(shop_command)


@main.command("openapi")
def openapi() -> None:
    """Print the description of the interface."""
    client = create_app(Settings(database="sqlite://", photos="memory:///")).test_client()
    click.echo(json.dumps(client.get("/openapi.json").get_json(), indent=2, sort_keys=True, ensure_ascii=False))
