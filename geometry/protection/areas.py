"""What a construction is given and what it gives: polygons in the frame of a hold, figures and sentences."""

from __future__ import annotations

from typing import Callable, NamedTuple

import numpy as np

AS_ENTERED = "as entered"
"""Mark of a value that the user gave, in place of one of the document's."""


class Designs(NamedTuple):
    """What a construction needs of N holds, in the frame of each: arrays (N,), lists of N where said.

    ias_kt: the fastest that may use the hold. alt_ft: the highest level. outbound_min: still air, of a distance leg
    the time that it takes. leg_nm: length of a distance leg, NaN for a timed one. station_u_nm: how far ahead of the
    fix along the inbound course the defining DME lies (behind it negative), NaN where none does. station_elev_ft.
    tolerance_areas_nm: N arrays (V, 2), corners of the fix tolerance area in the frame; one corner for a point.
    arrivals_deg: N arrays of headings at the fix less the inbound course, in the frame (right turns): the arrivals to
    protect; None for arrivals from everywhere, an empty array for none.
    navaid_nm: how far the navaid that defines the fix lies from it along the ground, NaN where none does.
    """

    ias_kt: np.ndarray
    alt_ft: np.ndarray
    outbound_min: np.ndarray
    leg_nm: np.ndarray
    station_u_nm: np.ndarray
    station_elev_ft: np.ndarray
    tolerance_areas_nm: list
    arrivals_deg: list
    navaid_nm: np.ndarray | None = None


class Options(NamedTuple):
    """What the user chooses for all holds of a run; a construction reads what concerns it.

    tolerance_m: how far a polygon may exceed the true area. step_deg: how finely the template's turns are sampled, a
    divisor of 45 (45: the tabulated discs alone). entries: all (omnidirectional), arrivals (those of the design) or
    none. wind_kt: the 95 % omnidirectional wind of statistics, NaN for the document's formula. tas: how IAS becomes
    TAS at ISA+15: document (K up to 14 000 ft, compressible above), k, or compressible. turbulence: areas take the
    turbulence speed of the level where the design's is slower; category: A/B or H where the hold is limited to these.
    slow_ias_kt: a slow flight that the
    areas consider too (ICAO Doc 8168 Vol II, II-4-1-4, 1.3.3.1.2), NaN for none. navigation: conventional or rnav;
    att_nm, xtt_nm: its along- and cross-track tolerance, NaN for that of the design's tolerance area.
    moc_factor: 1 to 2, of the clearance over high terrain or mountains. category_h: the narrow buffer of helicopters.
    moc_metres: clearances by the document's metres in place of its printed feet.
    outlines: of the outline construction, its templates (outline.Outlines).
    """

    tolerance_m: float = 5.0
    step_deg: float = 1.0
    entries: str = "all"
    wind_kt: float = np.nan
    tas: str = "document"
    turbulence: bool = False
    category: str = ""
    slow_ias_kt: float = 90.0
    navigation: str = "conventional"
    att_nm: float = np.nan
    xtt_nm: float = np.nan
    moc_factor: float = 1.0
    category_h: bool = False
    moc_metres: bool = False
    outlines: NamedTuple | None = None


class Area(NamedTuple):
    """One part of one hold's area: row of the hold, part name, polygons in the frame, figures, sentences.

    Parts of the same names whatever the construction: basic, entry (what the entries add), buffer_1 to buffer_5
    (rings without the one before), or primary and secondary. They do not overlap.
    polygons_nm: each a tuple of open rings (M, 2), the outer one first, counter-clockwise, holes after it, clockwise.
    """

    row: int
    part: str
    polygons_nm: tuple[tuple[np.ndarray, ...], ...]
    moc_ft: float
    alt_ft: float
    tas_kt: float
    wind_kt: float
    limits: str

    @property
    def ring_nm(self) -> np.ndarray:
        """The outer ring of the first polygon: of a part without holes, the whole of it."""
        return self.polygons_nm[0][0]


class LineValue(NamedTuple):
    """One line of a construction's sheet for one hold: number, name, formula, value, unit, paragraph, mark."""

    row: int
    number: str
    name: str
    formula: str
    value: float
    unit: str
    source: str
    mark: str


class Drawn(NamedTuple):
    """One line or lettered point of a construction's drawing: kind (point | arc | tangent | outline | line), letter,
    vertices (M, 2) in the frame (a point has one), radius of an arc, what it is in words."""

    row: int
    kind: str
    letter: str
    path_nm: np.ndarray
    radius_nm: float
    text: str


class Construction(NamedTuple):
    """A rule set: another one is one new file that makes one of these.

    name: as in CONSTRUCTION. areas(designs, options) -> list[Area]; a row it refuses gives no Area and a sentence in
    refusals(designs, options) -> object array (N,), '' where it is built. values(designs, options) -> list[LineValue];
    drawing(designs, options) -> list[Drawn]; both may be empty.
    """

    name: str
    refusals: Callable
    areas: Callable
    values: Callable
    drawing: Callable
