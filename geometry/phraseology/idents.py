"""Names and idents of navaids among the words of a clearance."""

from __future__ import annotations

from collections.abc import Iterable

from .tokens import RefusedError, Token, plain, tokens
from .words import LETTERS, VOCABULARY

MOST_WORDS = 6
_LONGEST_UNKNOWN = 20


class Idents:
    """What navaids are called: pairs of (ident, name). Without any, whatever stands in an ident's place is one."""

    def __init__(self, navaids: Iterable[tuple[str, str]] = ()) -> None:
        self._by_words: dict[tuple[str, ...], str] = {}
        pairs = [(str(ident).strip(), str(name or "").strip()) for ident, name in navaids]
        for ident, name in pairs:
            self._learn(name, ident)
        for ident, _ in pairs:
            self._learn(ident, ident)

    def _learn(self, words: str, ident: str) -> None:
        if not words or not ident:
            return
        try:
            key = tuple(token.text for token in tokens(plain(words)) if token.kind != "mark")
        except RefusedError:
            return
        if 0 < len(key) <= MOST_WORDS:
            self._by_words[key] = ident

    def knows(self, found: list[Token], i: int) -> bool:
        """Whether a known ident or name begins at a token."""
        words = tuple(token.text for token in found[i : i + MOST_WORDS])
        return any(words[:size] in self._by_words for size in range(len(words), 0, -1))

    def find(self, found: list[Token], i: int, certain: bool) -> tuple[str, int] | None:
        """The ident that begins at a token and the token after it, or None.

        certain: only an ident or name can stand here, so that one may be unknown, or be a word of the phraseology.
        """
        words = tuple(token.text for token in found[i : i + MOST_WORDS])
        for size in range(len(words), 0, -1):
            known = self._by_words.get(words[:size])
            if known and (certain or not all(word in VOCABULARY for word in words[:size])):
                return known, i + size
        spelled = ""
        while i + len(spelled) < len(found) and found[i + len(spelled)].text in LETTERS and len(spelled) < 5:
            spelled += LETTERS[found[i + len(spelled)].text]
        if len(spelled) > 1:
            return self._by_words.get((spelled,), spelled.upper()), i + len(spelled)
        token = found[i] if i < len(found) else None
        if certain and token and token.kind == "word" and token.text not in VOCABULARY and 1 < len(token.text):
            if len(token.text) <= _LONGEST_UNKNOWN:
                return token.text.upper(), i + 1
        return None
