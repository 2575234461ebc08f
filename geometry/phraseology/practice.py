"""Clearances to practise on: from numbers between 0 and 1 to words, right ones and deliberately wrong ones."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from . import clearance as said
from . import octants
from .clearance import Clearance, Fix, Line
from .writing import Phrase, write

DRAWS = 14
"""Numbers that one clearance takes."""
FAULTS = ("direction", "time", "line", "dme")
"""What is made wrong: a direction across the line; a time that is none; no radial or course; a DME distance of a navaid
without DME. A navaid with DME has no fault of the last kind, and gets a wrong direction instead."""

# What is spoken for training: our own choice.
_NM = (8, 30)
_LEGS_NM = (3, 4, 5, 6, 8)
_LEGS_MIN = (1.5, 2.0)
_LEFT, _OWN_LEG, _AWAY, _BY_DME = 0.4, 0.5, 0.25, 0.6
_LEAST_FROM_STATION_NM = 4.0


@dataclass(frozen=True)
class Source:
    """A navaid that clearances may name: bearings, where it is an NDB; dme, where it gives range."""

    ident: str
    bearings: bool
    dme: bool


@dataclass(frozen=True)
class Task:
    """A clearance to read or hear, and the fault that was put into it, '' for none."""

    clearance: Clearance
    phrase: Phrase
    fault: str


def practice(
    sources: Sequence[Source], altitudes_ft: Sequence[float], draws, wording: str, faulty: float
) -> list[Task]:
    """Clearances round navaids.

    Parameters: sources, one or more; altitudes_ft to choose from; draws (N, DRAWS) in [0, 1), which alone decide;
    wording, faa or icao; faulty, the share of wrong ones, 0 to 1. Returns: N Tasks. Errors: ValueError for no sources
    or altitudes, or draws of another shape.
    """
    draws = np.asarray(draws, dtype=np.float64)
    if not sources or not len(altitudes_ft):
        raise ValueError("sources and altitudes_ft must have one entry or more")
    if draws.ndim != 2 or draws.shape[1] != DRAWS:
        raise ValueError(f"draws has the shape {draws.shape}; it must be (N, {DRAWS})")
    return [_task(sources, altitudes_ft, row.tolist(), wording, faulty) for row in draws]


def _task(sources, altitudes_ft, draw: list[float], wording: str, faulty: float) -> Task:
    source = _pick(sources, draw[0])
    clearance = _right(source, altitudes_ft, draw, wording)
    fault = _pick(FAULTS, draw[12]) if draw[11] < faulty else ""
    if fault == "dme" and source.dme:
        fault = "direction"
    if fault == "line" and clearance.fix.kind != said.OVERHEAD:
        fault = "time"
    if fault:
        clearance = _wrong(clearance, fault, draw[13])
    return Task(clearance, write(clearance, wording), fault)


def _right(source: Source, altitudes_ft, draw: list[float], wording: str) -> Clearance:
    radial = float(math.floor(draw[1] * 360.0))
    by_dme = source.dme and draw[2] < _BY_DME
    kind = said.BEARING if source.bearings else said.RADIAL
    leg_min, leg_nm, away = math.nan, math.nan, False
    if by_dme:
        nm = float(_NM[0] + math.floor(draw[3] * (_NM[1] - _NM[0] + 1)))
        away = draw[4] < _AWAY
        fix = Fix(said.RADIAL_DISTANCE, source.ident, radial_deg=radial, distance_nm=nm, unit="dme",
                  bearing=source.bearings)  # fmt: skip
        lengths = [leg for leg in _LEGS_NM if not away or nm - leg >= _LEAST_FROM_STATION_NM]
        leg_nm = float(_pick(lengths, draw[6])) if draw[5] < _OWN_LEG else math.nan
    else:
        fix = Fix(said.OVERHEAD, source.ident)
        leg_min = _pick(_LEGS_MIN, draw[6]) if draw[5] < _OWN_LEG else math.nan
    outbound = (radial + 180.0 * away) % 360.0
    return Clearance(
        fix=fix,
        line=Line(kind, radial),
        direction=octants.octant(outbound),
        inbound_deg=(outbound + 180.0) % 360.0,
        turn="left" if draw[7] < _LEFT else "right",
        leg_min=leg_min,
        leg_nm=leg_nm,
        level="ft",
        alt_ft=float(_pick(altitudes_ft, draw[8])),
        efc=f"{math.floor(draw[9] * 24.0):02d}:{math.floor(draw[10] * 60.0):02d}",
        rules=wording,
    )


def _wrong(c: Clearance, fault: str, draw: float) -> Clearance:
    if fault == "direction":
        across = 2 if draw < 0.5 else -2
        return replace(c, direction=octants.OCTANTS[(octants.OCTANTS.index(c.direction) + across) % 8])
    if fault == "time":
        return replace(c, efc=f"{24 + math.floor(draw * 6.0)}:{c.efc[3:4]}5")
    if fault == "line":
        return replace(c, line=Line(said.UNSAID), inbound_deg=math.nan)
    nm = float(_NM[0] + math.floor(draw * (_NM[1] - _NM[0])))
    fix = Fix(said.RADIAL_DISTANCE, c.fix.ident, radial_deg=c.line.deg, distance_nm=nm, unit="dme",
              bearing=c.line.kind == said.BEARING)  # fmt: skip
    return replace(c, fix=fix)


def _pick(options: Sequence, draw: float):
    return options[min(math.floor(draw * len(options)), len(options) - 1)]
