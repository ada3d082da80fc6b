"""Master data as an office writes it (YAML), read field by field; every fault is found in one pass, with its field."""

from collections.abc import Collection, Mapping
from decimal import Decimal
from typing import Any

from seamtag.core import numbers
from seamtag.core.welding import is_day

MOST_ID = 40
MOST_TEXT = 400
A_DAY = {"description": "a day such as 2026-11-25"}
"""What a schema says of a day."""


class FieldError(ValueError):
    """faults: what is wrong, a sentence each, with the field's name."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


class Fields:
    """Reads the fields of one thing, gathering faults on the way. what: such as 'procedure'; known: all its fields."""

    def __init__(self, given: Any, what: str, known: Collection[str]) -> None:
        self.given: Mapping[str, Any] = given if isinstance(given, Mapping) else {}
        self.where = f"{what} {str(self.given.get('id', ''))[:MOST_ID]}".strip()
        self.faults: list[str] = [] if isinstance(given, Mapping) else [f"{what}: must be keys with values below them"]
        self.faults += [f"{self.where}: there is no field '{name}'" for name in self.given if name not in known]

    def fault(self, name: str, says: str) -> None:
        self.faults.append(f"{self.where}, {name}: {says}")

    def done(self) -> None:
        """Raises FieldError where anything was wrong."""
        if self.faults:
            raise FieldError(self.faults)

    def text(self, name: str, most: int = MOST_TEXT, needed: bool = True) -> str:
        """A text in one line, without blanks before and after it."""
        value = self.given.get(name)
        found = "" if value is None else str(value).strip()
        if needed and not found:
            self.fault(name, "is missing")
        if len(found) > most or not (found.isprintable() or not found):
            self.fault(name, f"is longer than {most} characters or cannot be printed")
        return found

    def choice(self, name: str, choices: Collection[str]) -> str:
        value = self.text(name)
        if value and value not in choices:
            self.fault(name, f"'{value}' is not one of {', '.join(choices)}")
        return value

    def texts(self, name: str, choices: Collection[str] = ()) -> list[str]:
        """A list of texts; of choices where there are any, and then in their order."""
        value = self.given.get(name) or []
        if not isinstance(value, list) or any(not isinstance(one, str) or not one.strip() for one in value):
            self.fault(name, "must be a list of texts")
            return []
        strange = [one for one in value if choices and one not in choices]
        if strange:
            self.fault(name, f"'{strange[0]}' is not one of {', '.join(choices)}")
        return [one for one in choices if one in value] if choices else [one.strip() for one in value]

    def number(self, name: str, value: Any = None, above_zero: bool = False) -> str | None:
        """A number of 0 or more as plain figures; None where there is none. value: the field's own where None."""
        given = self.given.get(name) if value is None else value
        if given is None:
            return None
        if isinstance(given, bool) or not isinstance(given, str | int | float):
            self.fault(name, f"'{given}' is not a number. Type one such as 1 7/8 or .875.")
            return None
        try:
            found = numbers.parse(str(given)).value
        except numbers.NumberError as error:
            self.fault(name, str(error))
            return None
        if found < 0 or (above_zero and found == 0):
            self.fault(name, f"must {'be above' if above_zero else 'not be below'} 0, and it is {given}")
        return numbers.text_of(found)

    def ends(self, name: str, pair: Any = None) -> list[str] | None:
        """The lowest and the highest of a range, as plain figures; None where there is none."""
        given = self.given.get(name) if pair is None else pair
        if given is None:
            return None
        if not isinstance(given, list) or len(given) != 2 or None in given:
            self.fault(name, "must be the lowest and the highest, such as [90, 140]")
            return None
        lower, upper = (self.number(name, one) for one in given)
        if lower is None or upper is None:
            return None
        if Decimal(lower) > Decimal(upper):
            self.fault(name, f"the lowest, {lower}, is above the highest, {upper}")
        return [lower, upper]

    def whole(self, name: str) -> int:
        value = self.given.get(name)
        if isinstance(value, int) and not isinstance(value, bool) and 0 < value < 1000:
            return value
        self.fault(name, f"'{value}' must be a whole number from 1 to 999")
        return 1

    def day(self, name: str, needed: bool = False) -> str | None:
        """An ISO date; YAML's own dates as well."""
        value = self.text(name, needed=needed)
        if value and not is_day(value):
            self.fault(name, f"'{value}' is no day such as 2026-11-25")
        return value or None
