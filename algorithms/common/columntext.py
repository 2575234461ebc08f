"""The column of holds as one file for a phone: HTML that loads nothing and runs nothing, or plain text."""

from __future__ import annotations

import html
import re
from typing import NamedTuple

from .texts import tr

_STYLE = (
    "body{font:100%/1.45 sans-serif;margin:0 auto;max-width:40em;padding:0 1em 2em;color:#000;background:#fff}"
    "h1{font-size:1.4em}h2{font-size:1.25em;border-top:2px solid #0072B2;padding-top:.6em;margin-top:2em}"
    "h3{font-size:1em;margin:1.2em 0 .2em}p{margin:.3em 0}"
    "table{border-collapse:collapse;width:100%}th,td{vertical-align:top}ul{padding-left:1.2em}"
    "th{font-weight:normal;text-align:start;color:#555;padding:.1em 1em .1em 0}"
    "td{text-align:end;font-variant-numeric:tabular-nums}a{color:#0072B2}.note{font-size:.85em;color:#555}"
    "@media(prefers-color-scheme:dark){body{color:#eee;background:#111}th,.note{color:#aaa}a{color:#56B4E9}}"
)


class Section(NamedTuple):
    """A part of a column: a heading, lines of a name and its figure, sentences below them."""

    title: str
    lines: list[tuple[str, str]]
    sentences: list[str]


class Column(NamedTuple):
    """All that is said of a hold: its name, the line below it, its sections."""

    name: str
    below: str
    sections: list[Section]


def as_html(title: str, columns: list[Column], notes: list[str]) -> bytes:
    """A page, well-formed as XML too. Every text that comes from outside is escaped and reads in its own direction."""
    e = _escaped
    parts = [
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8"/>\n',
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n',
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n",
        f"<title>{e(title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n",
        f'<h1 dir="auto">{e(title)}</h1>\n',
    ]
    if len(columns) > 1:
        links = (f'<li dir="auto"><a href="#h{i}">{e(c.name)}</a> {e(c.below)}</li>' for i, c in enumerate(columns, 1))
        parts.append("<ul>\n" + "\n".join(links) + "\n</ul>\n")
    for i, column in enumerate(columns, 1):
        parts.append(
            f'<section id="h{i}">\n<h2 dir="auto">{e(column.name)}</h2>\n<p dir="auto">{e(column.below)}</p>\n'
        )
        for section in column.sections:
            parts.append(f"<h3>{e(section.title)}</h3>\n")
            if section.lines:
                rows = (
                    f'<tr><th dir="auto">{e(name)}</th><td dir="auto">{e(value)}</td></tr>\n'
                    for name, value in section.lines
                )
                parts.append("<table>\n" + "".join(rows) + "</table>\n")
            parts += [f'<p dir="auto">{e(sentence)}</p>\n' for sentence in section.sentences]
        parts.append("</section>\n")
    parts += [f'<p class="note" dir="auto">{e(note)}</p>\n' for note in notes]
    parts.append("</body>\n</html>\n")
    return "".join(parts).encode("utf-8")


def as_text(title: str, columns: list[Column], notes: list[str]) -> bytes:
    """Plain text in UTF-8, a line a figure; names and headings are told apart by capitals and rules."""
    lines = [_clean(title), "", *map(_clean, notes), ""]
    for column in columns:
        lines += ["=" * 32, _clean(column.name), _clean(column.below)]
        for section in column.sections:
            lines += ["", _clean(section.title).upper()]
            lines += [f"{_clean(name)}: {_clean(value)}" for name, value in section.lines]
            lines += map(_clean, section.sentences)
        lines.append("")
    return ("\n".join(lines) + "\n").encode("utf-8")


def conduct() -> Section:
    """What is agreed before the flight, to fill in. Common practice."""
    wanted = (tr("Safety pilot"), tr("View-limiting device"), tr("Lookout"), tr("Weather minima"), tr("Frequency"),
              tr("Word to stop"))  # fmt: skip
    return Section(tr("Conduct of the exercise"), [(name, "________") for name in wanted], [])


def _clean(value: str) -> str:
    from ...geometry.waypoint_names import clean

    return clean(value)


_UNBROKEN = re.compile(r"(?<=[0-9]) (?=[0-9]{3}(?![0-9])|(?:ft|NM|kt|true|magnetic|selector)\b)")
"""Spaces at which a narrow screen must not break a line: within 5 000 ft, between 088.2 and what it is."""


def _escaped(value: str) -> str:
    return html.escape(_UNBROKEN.sub("\u00a0", _clean(value)))
