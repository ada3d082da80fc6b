"""The rework list as a page for the floor: piece by piece what was found, what to do, and what to inspect again."""

import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.tagcode import link_of
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Piece
from seamtag.review import decisions
from seamtag.review.calendar import time_zone
from seamtag.review.paper import HEAVY, LEADING, LINE, SIDE, Paper, columns_of, wrapped
from seamtag.review.report import HEAD, NO_SHOP, PAGE, Line, Lines, joined, shown
from seamtag.sync import chain
from seamtag.sync.models import Mark
from seamtag.tags.layout import BOLD, PLAIN, modules
from seamtag.tags.models import Tag

TITLE, ALL_JOBS = "Rework list", "all open jobs"
COUNT = "{many} to do on {pieces} {word}; as of {moment}"
NOTHING = "Nothing is to be reworked, repaired or scrapped."
BEFORE = (
    "Welding, cutting, grinding and other hot work, work in a confined space, and lifting need what the shop's own "
    "rules, its permits and local codes ask, and people licensed for them where that is asked. This list gives leave "
    "for none of it."
)
AFTER = (
    "A tick here is no record. Scan the tag on the piece and record again there, as 'after rework' or 'after repair': "
    "only that closes the finding. A repair needs the procedure that the shop and the Authorized Inspector accept."
)
FOUND, REASON, EXTENT, AGAIN, NCR, DECIDED = "Found", "Reason", "Extent", "Inspect again", "NCR", "Decided by"
TAG_AT, NO_TAG, ON_SHEET, TO_AGREE = "tag at: {place}", "no tag", "drawing sheet {sheet}", "has to agree: {parties}"
DONE_BY, DATE = "Done by", "Date"
WAITING, WAITING_NOTE = "Waits for agreement", "Do nothing to these before it is given."
NAME, TEXT, SMALL, LABEL = 13.0, 8.2, 7.0, 58.0
"""Sizes of type; and the width of the labels."""
SYMBOL, TICK = 58.0, 10.0
SYMBOL_QUIET = 9.0
"""Left free around a symbol: more than four of its modules."""
BETWEEN = 14.0


@dataclass(frozen=True)
class Work:
    """A piece with what is to be done on it. code: of its tag, '' where it has none."""

    job: str
    mark: str
    name: str
    sheet: str
    tag_at: str
    code: str
    lines: Sequence[Line]


@dataclass(frozen=True)
class Rework:
    shop: str
    job: str
    made: datetime
    head: tuple[int, str]
    pieces: Sequence[Work]
    waiting: Sequence[Line]


def rework_of(session: Session, job: str = "", now: int | None = None) -> Rework:
    """What is to be done on a job, or on all; pieces by job and mark, as their oldest decision stands."""
    second = int(time.time()) if now is None else now
    zone = time_zone(session)
    of = Lines(zone, second, 0)
    found = decisions.listed(session, "open", job, second, None)
    by_piece: dict[tuple[str, str], list[Line]] = {}
    for one in found:
        if one["state"] == decisions.TO_DO:
            line = {**of.decision(one), "again": again_of(session, one)}
            by_piece.setdefault((one["job"], one["piece"]["id"]), []).append(line)
    waiting = [of.decision(one) for one in found if one["state"] == decisions.WAITS]
    shop = session.get(Mark, "shop")
    pieces = [work_of(session, *key, by_piece[key]) for key in sorted(by_piece)]
    return Rework(shop.value if shop and shop.value else NO_SHOP, job, datetime.fromtimestamp(second, zone),
                  chain.head(session), pieces, waiting)  # fmt: skip


def again_of(session: Session, decision: Mapping[str, list[str] | str]) -> str:
    """The steps to inspect again, by number and name."""
    job = core_job(session, str(decision["job"])) if decision["again"] else None
    steps = job.steps if job else {}
    named = ((steps[one]["number"], steps[one].get("name", "")) if one in steps else ("", one)
             for one in decision["again"])  # fmt: skip
    return "; ".join(joined(" ", *one) for one in named)


def work_of(session: Session, job: str, piece: str, lines: Sequence[Line]) -> Work:
    row = session.get(Piece, piece)
    code = session.scalar(select(Tag.code).where(Tag.piece == piece, ~Tag.retired)) or ""
    sheet, place = (row.sheet, row.place) if row else ("", "")
    return Work(job, lines[0]["mark"], lines[0]["piece_name"], sheet, place, code, lines)


def rework_pdf(rework: Rework, host: str, paper: str = "a4") -> bytes:
    """host: what tags link to. paper: 'a4' or 'letter'."""
    sheet = Paper(paper)
    opening(sheet, rework)
    for work in rework.pieces:
        draw_piece(sheet, work, host)
    draw_waiting(sheet, rework.waiting)
    sheet.need(60)
    sheet.skip(BETWEEN)
    sheet.paragraph(AFTER, SMALL)
    title = f"{TITLE}, {named(rework)}"
    return sheet.drawn(title, lambda one, page, pages: each_page(one, rework, page, pages))


def named(rework: Rework) -> str:
    return f"job {rework.job}" if rework.job else ALL_JOBS


def opening(sheet: Paper, rework: Rework) -> None:
    many = sum(len(work.lines) for work in rework.pieces)
    word = "piece" if len(rework.pieces) == 1 else "pieces"
    sheet.down = SIDE
    sheet.paragraph(rework.shop, 11, BOLD)
    sheet.skip(25)
    sheet.text(sheet.left, sheet.down, TITLE, 20, BOLD)
    sheet.skip(6)
    sheet.paragraph(named(rework), 11)
    sheet.skip(2)
    said = COUNT.format(many=many, pieces=len(rework.pieces), word=word, moment=shown(rework.made))
    sheet.paragraph(said if many else f"{NOTHING} ({shown(rework.made)})", TEXT)
    sheet.skip(8)
    sheet.paragraph(BEFORE, TEXT, BOLD)
    sheet.skip(4)


def draw_piece(sheet: Paper, work: Work, host: str) -> None:
    """A piece with its symbol, then what is to be done on it; the first of these stays with it."""
    blocks = [block_of(sheet, line) for line in work.lines]
    head = SYMBOL + 2 * SYMBOL_QUIET + SMALL * LEADING
    sheet.need(BETWEEN + head + min(high_of(blocks[0]), 300))
    sheet.skip(BETWEEN)
    sheet.rule(sheet.down, HEAVY)
    top = sheet.down
    left = sheet.left
    if work.code:
        sheet.symbol(left + SYMBOL_QUIET, top + SYMBOL_QUIET, SYMBOL, modules(link_of(host, work.code)))
    sheet.text(left + SYMBOL_QUIET, top + SYMBOL + SYMBOL_QUIET + SMALL * 1.7, work.code or NO_TAG, SMALL, BOLD)
    left += SYMBOL + 3 * SYMBOL_QUIET
    wide = sheet.right - left
    down = top + SYMBOL_QUIET
    rest = (joined(", ", f"job {work.job}", work.name), ON_SHEET.format(sheet=work.sheet) if work.sheet else "",
            TAG_AT.format(place=work.tag_at) if work.tag_at else "")  # fmt: skip
    lines = [(text, NAME, BOLD) for text in wrapped(work.mark, wide, NAME, BOLD)]
    lines += [(text, TEXT, PLAIN) for one in rest for text in wrapped(one, wide, TEXT)]
    for text, size, face in lines:
        down += size * LEADING
        sheet.text(left, down - size * 0.3, text, size, face)
    sheet.down = max(top + head, down)
    for block in blocks:
        draw_block(sheet, block)


Block = list[tuple[str, list[str], str]]
"""Of each line of a finding: its label, its text as it is set, and its typeface."""


def block_of(sheet: Paper, line: Line) -> Block:
    rows = (
        ("", f"{line['word'].upper()}: {joined(', ', line['step_named'], line['where'])}", BOLD),
        (FOUND, joined(", ", line["flag"], line["value_said"], line["limits_said"]), PLAIN),
        (REASON, line["reason"], PLAIN), (EXTENT, line["extent"], PLAIN), (AGAIN, line["again"], PLAIN),
        (NCR, line["ncr"], BOLD), (DECIDED, joined(", ", line["by"], shown(line["at"])), PLAIN),
    )  # fmt: skip
    wide = sheet.width - TICK - 8
    return [(label, wrapped(text, wide - (LABEL if label else 0), TEXT, face), face)
            for label, text, face in rows if text]  # fmt: skip


def high_of(block: Block) -> float:
    return sum(len(texts) for _, texts, _ in block) * TEXT * LEADING + 38


def draw_block(sheet: Paper, block: Block) -> None:
    """What is to be done once: a box to tick, its lines, and a line to sign."""
    sheet.need(min(high_of(block), 500))
    sheet.rule(sheet.down)
    sheet.skip(5)
    sheet.box(sheet.left, sheet.down + 1, TICK)
    left = sheet.left + TICK + 8
    for label, texts, face in block:
        for place, text in enumerate(texts):
            sheet.need(TEXT * LEADING)
            sheet.skip(TEXT * LEADING)
            if label and place == 0:
                sheet.text(left, sheet.down - 2, label, SMALL)
            sheet.text(left + (LABEL if label else 0), sheet.down - 2, text, TEXT, face)
    sheet.need(28)
    sheet.skip(24)
    for label, (at, wide) in zip((DONE_BY, DATE), columns_of([5, 2], left, sheet.right - left, 14), strict=True):
        sheet.text(at, sheet.down, label, SMALL)
        sheet.rule(sheet.down + 1.5, LINE, at + 34, at + wide)
    sheet.skip(9)


def draw_waiting(sheet: Paper, waiting: Sequence[Line]) -> None:
    if not waiting:
        return
    sheet.need(BETWEEN * 2 + 70)
    sheet.skip(BETWEEN)
    sheet.rule(sheet.down, HEAVY)
    sheet.skip(4)
    sheet.paragraph(f"{WAITING}. {WAITING_NOTE}", TEXT, BOLD)
    for line in waiting:
        place = joined(", ", f"{line['mark']} ({line['of_job']})", line["step_named"], line["where"])
        sheet.skip(2)
        sheet.paragraph(
            joined(
                "; ",
                place,
                line["value_said"],
                line["word"],
                TO_AGREE.format(parties=line["lacking"]),
                f"NCR {line['ncr']}" if line["ncr"] else "",
            ),
            TEXT,
        )


def each_page(sheet: Paper, rework: Rework, page: int, pages: int) -> None:
    if page > 1:
        sheet.text(sheet.left, SIDE * 0.8, f"{TITLE}, {named(rework)}, {shown(rework.made)}"[:90], SMALL)
        sheet.rule(SIDE * 0.8 + 4)
    foot = sheet.high - SIDE * 0.72
    sheet.rule(foot - SMALL * 1.5)
    sheet.text(sheet.left, foot, HEAD.format(number=rework.head[0], hash=rework.head[1]), 6.2)
    sheet.text(sheet.right, foot, PAGE.format(page=page, pages=pages), SMALL, BOLD, right=True)
