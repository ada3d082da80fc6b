"""All models in one place, for the migrations."""

from seamtag.drawings.models import Drawing
from seamtag.gauges.models import Gauge
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.people.models import Challenge, Invitation, Key, Person, Qualification, RoleChange, SignIn
from seamtag.photos.models import Photo
from seamtag.plans.models import PlanRevision
from seamtag.procedures.models import Procedure
from seamtag.records.models import Record, Refusal
from seamtag.review.models import FlagRow
from seamtag.sync.models import Device, Entry, Mark
from seamtag.tags.models import Tag

__all__ = ["Basis", "Challenge", "Device", "Drawing", "Entry", "FlagRow", "Gauge", "Invitation", "Job", "Key", "Mark",
           "Person", "Photo", "Piece", "PlanRevision", "Procedure", "Qualification", "Record", "Refusal", "RoleChange",
           "SignIn", "Tag"]  # fmt: skip
