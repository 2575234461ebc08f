"""Numbers and choices of an algorithm: what each may be, said once for dialog, check, rows and help."""

from __future__ import annotations

from dataclasses import dataclass

from .texts import tr
from .values import given


@dataclass(frozen=True)
class Number:
    """A number within a range, both ends included.

    Not given: the default; without one, NaN where the number is optional, refused where it is not.
    """

    name: str
    label: str
    minimum: float
    maximum: float
    help: str
    unit: str = ""
    default: float | None = None
    optional: bool = False
    dynamic: bool = True
    advanced: bool = False
    of: str = "INPUT"
    """The input over whose rows a field or an expression is evaluated."""
    decimals: int | None = None
    """How many decimals a dialog shows; None: as many as the unit has."""

    @property
    def missing(self) -> float:
        """What stands for "not given" in a column."""
        return float("nan") if self.default is None else float(self.default)

    @property
    def allowed(self) -> str:
        """What the number may be, in words."""
        limits = tr("a number between {} and {}").format(f"{self.minimum:.10g}", f"{self.maximum:.10g}")
        return f"{limits} {self.unit}" if self.unit else limits


@dataclass(frozen=True)
class Choice:
    """One of several words, given by word or by index.

    Not given: the default; without one, -1 where the choice is optional, refused where it is not.
    """

    name: str
    label: str
    words: tuple[str, ...]
    help: str
    default: str | None = None
    optional: bool = False
    dynamic: bool = True
    advanced: bool = False
    of: str = "INPUT"

    @property
    def missing(self) -> int:
        """What stands for "not given" in a column."""
        return -1 if self.default is None else self.words.index(self.default)

    @property
    def allowed(self) -> str:
        """What the choice may be, in words."""
        words = ", ".join(f"{i} {word}" for i, word in enumerate(self.words))
        return tr("one of {}").format(words)

    def code(self, value) -> int | None:
        """The index of a word or an index in any form; None where it is neither."""
        if isinstance(value, str):
            word = value.strip().lower()
            if word in self.words:
                return self.words.index(word)
            if not (word.isascii() and word.isdigit()):
                return None
            value = int(word)
        if isinstance(value, bool):
            return None
        try:
            index = int(value)
        except (TypeError, ValueError, OverflowError):
            return None
        return index if index == value and 0 <= index < len(self.words) else None


def not_given(spec: Number | Choice) -> str:
    """The sentence for a value that is missing and must not be."""
    return tr("{} is not given; it must be {}.").format(spec.name, spec.allowed)


def wrong(spec: Number | Choice, value) -> str:
    """What is said of a value that is not allowed, without the full stop."""
    return tr("{} is {}; it must be {}").format(spec.name, shown(value), spec.allowed)


def shown(value) -> str:
    """A value inside a sentence: text in quotes and cut short, a number as it is, nothing as 'empty'."""
    if not given(value):
        return tr("empty")
    if isinstance(value, str):
        return repr(value if len(value) <= 40 else value[:40] + "...")
    if isinstance(value, float):
        return f"{value:.10g}"
    return str(value)[:60]
