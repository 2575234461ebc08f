"""What was heard of a clearance so far, element by element."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from .clearance import Line
from .tokens import RefusedError


@dataclass
class Distance:
    """A distance from a navaid: dme or mile; arc, where it crosses a radial rather than lies on it."""

    nm: float
    unit: str
    ident: str = ""


@dataclass
class Offset:
    """So far before, beyond, or in a direction of a navaid; unit: dme or mile; words as they were said."""

    nm: float
    unit: str
    side: str
    octant: str
    ident: str
    navaid_kind: str
    words: str


@dataclass
class Heard:
    """Elements in the order they were heard. places: (role, ident, kind); role fix, limit or bare."""

    single: dict[str, Any] = field(default_factory=dict)
    said: dict[str, str] = field(default_factory=dict)
    places: list[tuple[str, str, str]] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    distances: list[Distance] = field(default_factory=list)
    offset: Offset | None = None
    assumed: list[str] = field(default_factory=list)
    understood: list[str] = field(default_factory=list)
    wording: set[str] = field(default_factory=set)

    def put(self, name: str, value, words: str) -> None:
        """An element that a clearance has once. Errors: RefusedError where it was heard otherwise before."""
        if name in self.single and self.single[name] != value:
            raise RefusedError(f"the clearance says “{self.said[name]}” as well as “{words}”")
        self.single[name] = value
        self.said.setdefault(name, words)

    def get(self, name: str, otherwise: Any = "") -> Any:
        """An element, or what stands for one that was not heard."""
        return self.single.get(name, otherwise)
