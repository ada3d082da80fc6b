"""What the office's routes ask of jobs: a new job read and checked as a whole, and pieces by their marks."""

import base64
import binascii
import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.jobs import lists
from seamtag.jobs.advice import advice_on
from seamtag.jobs.changing import filled, near
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.jobs.opening import faults_of, faults_of_figures
from seamtag.people.models import Person
from seamtag.plans.models import PlanRevision
from seamtag.sync.models import Entry

NUMBER = re.compile(r"[^/\\\x00-\x1f]{1,40}")
AT_ONCE = 500

Source = dict[str, Any]


def source_of(session: Session, data: Mapping[str, Any], document: Mapping[str, Any]) -> tuple[Source, list[str]]:
    """A job as `opening.open_job` takes it, and everything that is wrong with it."""
    pieces, wrong = pieces_read(data, document)
    source = {"job": data["job"].strip(), "title": data["title"].strip(), "figures": filled(data["figures"]),
              "drawings": filled(data["drawings"]), "pieces": pieces}  # fmt: skip
    faults = faults_of_job(session, source, document) + wrong
    return source, faults or faults_of(source, document)


def faults_of_job(session: Session, source: Source, document: Mapping[str, Any]) -> list[str]:
    """What is wrong with a job's number, title and figures, and with marks that another job's pieces take."""
    number = source["job"]
    found = []
    if not NUMBER.fullmatch(number):
        found.append("the job's number: it has 1 to 40 letters, figures and signs, and no stroke (/)")
    elif session.get(Job, number):
        found.append(f"the job's number: there is a job {number} already")
    if not source["title"]:
        found.append("the job's title is missing")
    found += [f"figure {name}: the plan asks for no such figure{near(name, document['figures'])}"
              for name in source["figures"] if name not in document["figures"]]  # fmt: skip
    found += faults_of_figures(source["figures"], document)
    return found + clashes(session, number, [str(piece["mark"]) for piece in source["pieces"]])


def clashes(session: Session, job: str, marks: list[str]) -> list[str]:
    """Marks that with the job's number make the name of another job's piece, as job 1 with 2.A and job 1.2 with A."""
    found = []
    for start in range(0, len(marks), AT_ONCE):
        ids = [f"{job}.{mark}" for mark in marks[start : start + AT_ONCE]]
        rows = session.execute(select(Piece.id, Piece.job).where(Piece.id.in_(ids), Piece.job != job))
        found += [f"piece {row.id.removeprefix(job + '.')}: job {row.job} has a piece of this name" for row in rows]
    return found


def pieces_read(
    data: Mapping[str, Any], document: Mapping[str, Any], there: Iterable[str] = ()
) -> tuple[list[dict[str, Any]], list[str]]:
    """The pieces of a file or of typed rows, and every fault with its place."""
    known = set(there)
    if data["file"]:
        try:
            content = base64.b64decode(data["file"]["content"], validate=True)
        except (binascii.Error, ValueError):
            return [], ["The file did not arrive whole. Choose it again."]
        return lists.read_whole(content, data["file"]["name"], document, known)
    rows = lists.typed(data["rows"])
    if not rows:
        return [], ["The job has no piece. Choose a list, or type the pieces."]
    return lists.pieces_of_rows(rows, document, known)


def checked(session: Session, data: Mapping[str, Any], document: Mapping[str, Any]) -> dict[str, Any]:
    """Faults, advice, and the pieces as they were read."""
    source, faults = source_of(session, data, document)
    return {"faults": faults, "advice": advice_on(source, document), "pieces": source["pieces"]}


def added_of(
    session: Session, job: str, data: Mapping[str, Any], document: Mapping[str, Any]
) -> tuple[list[dict[str, Any]], list[str]]:
    """Pieces that are to be added to a job, and everything that is wrong with them; they may name pieces it has."""
    there = list(session.scalars(select(Piece.mark).where(Piece.job == job)))
    rows, faults = pieces_read(data, document, there)
    return rows, faults or clashes(session, job, [row["mark"] for row in rows])


def taken(session: Session, job: str, rows: Iterable[Mapping[str, Any]]) -> list[str]:
    """Marks that somebody else added to the job since they were checked."""
    there = set(session.scalars(select(Piece.mark).where(Piece.job == job)))
    return [f"the job has a piece '{row['mark']}' already" for row in rows if row["mark"] in there]


def pieces_by_mark(session: Session, job: str) -> list[dict[str, Any]]:
    rows = session.scalars(select(Piece).where(Piece.job == job).order_by(Piece.position))
    return by_mark(session, job, [row.as_data() for row in rows])


def by_mark(session: Session, job: str, pieces: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Pieces with marks in place of ids, as a list has them."""
    rows = session.execute(select(Piece.id, Piece.mark).where(Piece.job == job))
    marks = {"": "", **{row.id: row.mark for row in rows}}
    return [{**piece, "part_of": [marks.get(one, one) for one in piece["part_of"]],
             "joins": [marks.get(one, one) for one in piece["joins"]],
             "remade": marks.get(piece["remade"], piece["remade"])} for piece in pieces]  # fmt: skip


def with_names(session: Session, lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Lines with the names of people in place of their ids."""
    names = {row.id: row.name for row in session.execute(select(Person.id, Person.name))}
    return [{**line, "by": names.get(line["by"], line["by"])} for line in lines]


def page(session: Session, job: str) -> dict[str, Any]:
    """Figures, drawings and changes of a job."""
    bases = session.scalars(select(Basis).where(Basis.job == job).order_by(Basis.number.desc())).all()
    if not bases:
        return {"figures": [], "drawings": {}, "piece_figures": [], "kinds": [], "changes": []}
    document = session.get_one(PlanRevision, bases[0].plan).document
    return {
        "figures": figures(document["figures"], bases[0].values), "drawings": bases[0].drawings,
        "piece_figures": figures(document["piece_figures"], {}), "kinds": lists.kinds_of(document),
        "changes": [change(session, basis) for basis in bases],
    }  # fmt: skip


def figures(asked: Mapping[str, Any], values: Mapping[str, str]) -> list[dict[str, str]]:
    return [{"name": name, "what": figure["what"], "uom": figure["uom"], "typed": values.get(name, "")}
            for name, figure in asked.items()]  # fmt: skip


def change(session: Session, basis: Basis) -> dict[str, Any]:
    """One basis, by whom and when it was set."""
    plan = session.get_one(PlanRevision, basis.plan)
    stamp = json.loads(session.get_one(Entry, basis.number).stamp)
    person = session.get(Person, stamp["by"]) if stamp["by"] else None
    return {"plan": f"{plan.code} {plan.revision}", "figures": basis.figures, "drawings": basis.drawings,
            "values": basis.values, "reason": basis.reason, "at": stamp["at"],
            "by": person.name if person else ""}  # fmt: skip
