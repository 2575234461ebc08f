"""A place among the tokens of a clearance, and the small steps that reading is made of."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from .idents import Idents
from .numbers import MOST_FIGURES, Num, number
from .tokens import RefusedError, Token, shown
from .words import DEGREES, DIRECTIONS, KINDS

COURSE_FIGURES = 3
_LONGEST_DIRECTION = max(len(words) for words in DIRECTIONS)
_KINDS_LONGEST_FIRST = sorted(KINDS, key=len, reverse=True)
_KIND_STARTS = {words[0] for words in KINDS}


class Cursor:
    """Reads forward; a step that does not fit takes nothing and says so by None, False or ''."""

    def __init__(self, found: list[Token], plain: str, idents: Idents) -> None:
        self.found, self.plain, self.idents = found, plain, idents
        self.i = 0

    @property
    def ended(self) -> bool:
        """Whether all is read."""
        return self.i >= len(self.found)

    def word(self, ahead: int = 0) -> str:
        """The text of a token ahead, '' beyond the end."""
        j = self.i + ahead
        return self.found[j].text if 0 <= j < len(self.found) else ""

    def take(self, *words: str) -> str:
        """One of some words, if it is next."""
        return self.take_of(words)

    def take_of(self, words: Collection[str]) -> str:
        """One of a collection of words, if it is next."""
        found = self.word()
        if found and found in words:
            self.i += 1
            return found
        return ""

    def take_all(self, words: Iterable[str]) -> bool:
        """Several words in a row, if they are next; hyphens between them do not count."""
        start = self.i
        for word in words:
            self.take("-") if word != "-" else None
            if not self.take(word):
                self.i = start
                return False
        return True

    def skip(self, *words: str) -> None:
        """Words that may stand here and mean nothing."""
        while self.take_of(words):
            pass

    def number(self, most: int = MOST_FIGURES) -> Num | None:
        """A number; most: how many figures it has, where they are said one by one."""
        start = self.i
        self.take("-")
        found = number(self.found, self.i, most)
        if found is None:
            self.i = start
            return None
        self.i = found.end
        self.take("-")
        return found

    def degrees(self) -> float | None:
        """A course or radial: 0 to 360 in figures or words, degrees from magnetic north.

        Errors: RefusedError for more than 360, or from true north.
        """
        found = self.number(COURSE_FIGURES)
        if found is None or not found.figures:
            return None
        self.take_of(DEGREES)
        self.take("-")
        if self.word() == "true":
            raise RefusedError(f"{found.figures} is given from true north; a clearance is spoken from magnetic north")
        self.take("magnetic", "m")
        return found.value

    def checked(self, deg: float) -> float:
        """A course within a circle. Errors: RefusedError."""
        if deg > 360.0:
            raise RefusedError(f"{deg:g} is no radial or course; they go from 000 to 360")
        return deg % 360.0

    def direction(self) -> str:
        """A point of the compass."""
        for size in range(_LONGEST_DIRECTION, 0, -1):
            start, words = self.i, []
            while len(words) < size and not self.ended:
                if words:
                    self.take("-")
                words.append(self.word())
                self.i += 1
            if tuple(words) in DIRECTIONS:
                return DIRECTIONS[tuple(words)]
            self.i = start
        return ""

    def kind(self) -> str | None:
        """What a navaid is called: its kind, '' for a word that tells none."""
        if self.word() not in _KIND_STARTS:
            return None
        for words in _KINDS_LONGEST_FIRST:
            if tuple(token.text for token in self.found[self.i : self.i + len(words)]) == words:
                self.i += len(words)
                return KINDS[words]
        return None

    def place(self, certain: bool) -> tuple[str, str] | None:
        """An ident or name, and the kind that is said of it, before or after."""
        start = self.i
        self.skip("the")
        before = self.kind() if self.word() not in ("fix", "int") else None
        found = self.idents.find(self.found, self.i, certain or before is not None)
        if found is None and not certain and not self.ended and self._named_by_its_kind():
            found = self.idents.find(self.found, self.i, True)
        if found is None:
            self.i = start
            return None
        ident, self.i = found
        return ident, self.kind() or before or ""

    def _named_by_its_kind(self) -> bool:
        """Whether the next but one token says what kind of navaid the next one is."""
        here = self.i
        self.i += 1
        kind = self.kind()
        self.i = here
        return bool(kind)

    def owner(self) -> tuple[str, str]:
        """'from' or 'of' a navaid, if that is next."""
        start = self.i
        if self.take("from", "of", "off"):
            found = self.place(True)
            if found:
                return found
            self.skip("the")
            kind = self.kind()
            if kind is not None:
                return "", kind
        self.i = start
        return "", ""

    def quote(self, first: int, last: int) -> str:
        """The words from one token to another as they were typed."""
        return shown(self.plain[self.found[first].start : self.found[last].end])
