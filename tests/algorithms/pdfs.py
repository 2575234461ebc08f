"""What stands in a PDF, by poppler's tools; not a test itself."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from html import unescape
from typing import NamedTuple


class Word(NamedTuple):
    """A word and its box in points from the upper left corner."""

    left: float
    top: float
    right: float
    bottom: float
    text: str


class Page(NamedTuple):
    width: float
    height: float
    words: list[Word]


ROSE = {str(tens) for tens in range(3, 36, 3)} | {"N", "E", "S", "W"}
_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
_WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')


def pages(path) -> list[Page]:
    """Pages with their words."""
    run = subprocess.run(["pdftotext", "-bbox", str(path), "-"], capture_output=True, check=True)
    made = []
    text = unicodedata.normalize("NFKC", run.stdout.decode("utf-8"))  # the type has a sign of its own for "fi"
    for part in text.split("<page ")[1:]:
        width, height = (float(v) for v in _PAGE.search("<page " + part).groups())
        words = [Word(*map(float, found[:4]), unescape(found[4])) for found in _WORD.findall(part)]
        made.append(Page(width, height, words))
    return made


def overlapping(page: Page, share: float) -> list[tuple[str, str]]:
    """Pairs of words whose boxes share more than a part of the smaller one.

    Boxes of turned words are too large, hence the part. The figures of a compass rose are part of its picture, which
    labels may stand on.
    """
    found = []
    words = [word for word in page.words if word.text.strip() and word.text not in ROSE]
    for i, a in enumerate(words):
        for b in words[i + 1 :]:
            across, down = min(a.right, b.right) - max(a.left, b.left), min(a.bottom, b.bottom) - max(a.top, b.top)
            if across <= 0.0 or down <= 0.0:
                continue
            least = min((w.right - w.left) * (w.bottom - w.top) for w in (a, b))
            if across * down > share * least:
                found.append((a.text, b.text))
    return found


def fonts(path) -> list[str]:
    """Lines of pdffonts, one a font."""
    run = subprocess.run(["pdffonts", str(path)], capture_output=True, check=True, text=True)
    return run.stdout.splitlines()[2:]
