from typing import Any

from sqlalchemy import JSON, BigInteger, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from seamtag.database import Base


class Person(Base):
    """stamp: the mark a welder strikes beside the weld. Of an authorized inspector: commission: the number of the
    commission; stands_in_for: id of the one whose place is taken in absence. '' where there is none."""

    __tablename__ = "person"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    roles: Mapped[list[str]] = mapped_column(JSON)
    stamp: Mapped[str] = mapped_column(default="")
    commission: Mapped[str] = mapped_column(default="", server_default="")
    stands_in_for: Mapped[str] = mapped_column(default="", server_default="")


class Qualification(Base):
    """A welder's test by one process. coupon, coupon_od: inches as text; days as ISO text; continued: last proof on
    paper that he welded by it."""

    __tablename__ = "qualification"

    id: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    process: Mapped[str]
    test: Mapped[str]
    coupon: Mapped[str]
    layers: Mapped[int]
    coupon_od: Mapped[str | None]
    tested: Mapped[str]
    certificate: Mapped[str] = mapped_column(default="")
    continued: Mapped[str | None]

    def as_data(self) -> dict[str, Any]:
        """As core takes it."""
        return {
            "id": self.id, "person": self.person, "process": self.process, "test": self.test, "coupon": self.coupon,
            "layers": self.layers, "coupon_od": self.coupon_od, "tested": self.tested, "continued": self.continued,
        }  # fmt: skip


class RoleChange(Base):
    """The roles a person held from an entry of the chain on."""

    __tablename__ = "role_change"

    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    person: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    roles: Mapped[list[str]] = mapped_column(JSON)


class Invitation(Base):
    """A one-time code, kept as its SHA-256, that lets a person enrol one browser. Times are Unix seconds.

    inviter: who gave it; '' for the command line.
    """

    __tablename__ = "invitation"

    digest: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    expires: Mapped[int]
    used: Mapped[int | None]
    inviter: Mapped[str] = mapped_column(default="")


class Key(Base):
    """A public key of a person on a device, by its RFC 7638 thumbprint.

    shut_since: Unix second since when the phone is not to be trusted; None while it is.
    """

    __tablename__ = "key"

    kid: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    device: Mapped[str]
    jwk: Mapped[dict[str, Any]] = mapped_column(JSON)
    shut_since: Mapped[int | None] = mapped_column(BigInteger)


class Challenge(Base):
    """A nonce that a key signs to sign in; used once."""

    __tablename__ = "challenge"

    nonce: Mapped[str] = mapped_column(primary_key=True)
    expires: Mapped[int]


class SignIn(Base):
    """A session, by the SHA-256 of its cookie."""

    __tablename__ = "sign_in"

    digest: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    kid: Mapped[str] = mapped_column(ForeignKey("key.kid"))
    begun: Mapped[int]
    last_used: Mapped[int]
