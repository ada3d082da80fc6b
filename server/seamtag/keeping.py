"""Results that are costly to work out, kept until what they were made from changes."""

import threading
from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")


class Keeper(Generic[T]):
    """Keeps the newest result by name. most: how many names; the longest unused goes first. Safe among threads."""

    def __init__(self, most: int = 200) -> None:
        self.most = most
        self.kept: dict[Hashable, tuple[Hashable, T]] = {}
        self.lock = threading.Lock()

    def get(self, name: Hashable, made_from: Hashable, make: Callable[[], T]) -> T:
        """The result kept under a name, made anew where it was made from something else."""
        with self.lock:
            found = self.kept.pop(name, None)
            if found is not None:
                self.kept[name] = found
        if found is not None and found[0] == made_from:
            return found[1]
        made = make()
        with self.lock:
            self.kept[name] = (made_from, made)
            while len(self.kept) > self.most:
                self.kept.pop(next(iter(self.kept)))
        return made
