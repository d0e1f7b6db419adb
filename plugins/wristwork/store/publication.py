"""Kept files in their places on one site."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from wristwork.store.store import Store


class Publication:
    """Puts kept files below a site's folder, and knows what each holds."""

    def __init__(self, store: Store, folder: Path) -> None:
        self.folder = folder
        self._store = store
        self._sums: dict[str, str] = {}

    def place(self, address: str, name: str, make: Callable[[], bytes]) -> None:
        """Put an entry of the store at an address; ``make`` is called only if it is not kept. Raises OSError."""
        self._sums[address] = self._store.place(name, self.folder / address, make)

    def sum(self, address: str) -> str | None:
        """A digest of the file at an address; None for a file that was not placed."""
        return self._sums.get(address)
