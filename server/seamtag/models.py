"""All models in one place, for the migrations."""

from seamtag.drawings.models import Drawing
from seamtag.gauges.models import Gauge
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.people.models import Challenge, Invitation, Key, Person, Qualification, RoleChange, SignIn
from seamtag.photos.models import Photo
from seamtag.plans.models import PlanRevision
from seamtag.procedures.models import Procedure
from seamtag.records.models import Record, Refusal
from seamtag.review.models import Decision, FlagRow, ListLine, PieceState, Released
from seamtag.sync.models import Device, Entry, Mark
from seamtag.tags.models import Tag
from seamtag.trends.models import Measured, Series, Watched

__all__ = ["Basis", "Challenge", "Decision", "Device", "Drawing", "Entry", "FlagRow", "Gauge", "Invitation", "Job",
           "Key", "ListLine", "Mark", "Measured", "Person", "Photo", "Piece", "PieceState", "PlanRevision",
           "Procedure", "Qualification", "Record", "Refusal", "Released", "RoleChange", "Series", "SignIn",
           "Tag", "Watched"]  # fmt: skip
