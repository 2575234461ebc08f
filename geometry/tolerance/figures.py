"""The accuracies of aids, every figure beside its source."""

from __future__ import annotations

from ..sources import DERIVED, FROM_MEMORY, PUBLISHED, Figure

_ICAO = "ICAO Doc 8168 Vol II, 5th ed. 2006, "
_TABLE = _ICAO + "Table I-2-2-1; the root sum square of its components gives it"
_COMPONENT = _ICAO + "II-3-1, Appendix B"
_FTT = _ICAO + "Part I, Section 2, Chapter 2"
_CONE = _ICAO + "p. I-2-2-4"
_DME = "ICAO Doc 8168 Vol I, 5th ed. 2006, I-2-2, 2.4.2; Vol II, p. I-4-3-App C-14"
_FAA = "FAA Order 8260.3, section on fixes (8260.3B, paras 281 to 287)"

FIGURES = {
    "icao_vor_track_deg": Figure(5.2, "deg", FROM_MEMORY, _TABLE),
    "icao_vor_cross_deg": Figure(4.5, "deg", FROM_MEMORY, _TABLE),
    "icao_ndb_track_deg": Figure(6.9, "deg", FROM_MEMORY, _TABLE),
    "icao_ndb_cross_deg": Figure(6.2, "deg", FROM_MEMORY, _TABLE),
    "icao_localizer_track_deg": Figure(2.4, "deg", FROM_MEMORY, _TABLE),
    "icao_localizer_cross_deg": Figure(1.4, "deg", FROM_MEMORY, _TABLE),
    "icao_dme_least_nm": Figure(0.25, "NM", PUBLISHED, _DME),
    "icao_dme_share": Figure(0.0125, "of the slant range", PUBLISHED, _DME),
    "icao_vor_entry_nm_per_thousand_ft": Figure(0.033, "NM/1000 ft", PUBLISHED, _CONE),
    "icao_ndb_entry_deg": Figure(15.0, "deg", PUBLISHED, _CONE),
    "icao_cone_track_deg": Figure(5.0, "deg", PUBLISHED, _CONE),
    "faa_vor_track_deg": Figure(4.5, "deg", FROM_MEMORY, _FAA),
    "faa_vor_cross_deg": Figure(3.6, "deg", PUBLISHED, _FAA + ", seen in a quotation"),
    "faa_ndb_track_deg": Figure(5.0, "deg", FROM_MEMORY, _FAA),
    "faa_ndb_cross_deg": Figure(5.0, "deg", FROM_MEMORY, _FAA),
    "faa_localizer_track_deg": Figure(1.0, "deg", FROM_MEMORY, _FAA),
    "faa_localizer_cross_deg": Figure(0.5, "deg", FROM_MEMORY, _FAA),
    "faa_dme_least_nm": Figure(0.5, "NM", FROM_MEMORY, _FAA),
    "faa_dme_share": Figure(0.03, "of the slant range", FROM_MEMORY, _FAA),
    "gnss_along_nm": Figure(0.8, "NM", FROM_MEMORY, "ICAO Doc 8168 Vol II, RNAV 1 within 30 NM of the aerodrome: ATT"),
    "gnss_across_nm": Figure(1.0, "NM", FROM_MEMORY, "ICAO Doc 8168 Vol II, RNAV 1 within 30 NM of the aerodrome: XTT"),
    "on_course_deg": Figure(5.0, "deg", DERIVED, "chosen here: a course this near a line is flown along that line"),
}
"""The cone itself stands in cones.CONES. The FAA's area overhead a station could not be seen: none is given."""

_RECEIVED = {
    "vor": (
        Figure(3.5, "deg", PUBLISHED, _COMPONENT + ": ground"),
        Figure(1.0, "deg", PUBLISHED, _COMPONENT + ": monitor"),
        Figure(2.7, "deg", PUBLISHED, _COMPONENT + ": receiver"),
    ),
    "ndb": (
        Figure(3.0, "deg", PUBLISHED, _COMPONENT + ": ground"),
        Figure(5.4, "deg", PUBLISHED, _COMPONENT + ": receiver"),
    ),
    "localizer": (
        Figure(1.0, "deg", FROM_MEMORY, _FTT + ": ground"),
        Figure(1.0, "deg", FROM_MEMORY, _FTT + ": receiver"),
    ),
}
_FLOWN = {
    "vor": Figure(2.5, "deg", FROM_MEMORY, _FTT + ": flight technical"),
    "ndb": Figure(3.0, "deg", FROM_MEMORY, _FTT + ": flight technical"),
    "localizer": Figure(2.0, "deg", FROM_MEMORY, _FTT + ": flight technical"),
}
COMPONENTS = {
    **{f"icao_{aid}_cross_deg": parts for aid, parts in _RECEIVED.items()},
    **{f"icao_{aid}_track_deg": (*parts, _FLOWN[aid]) for aid, parts in _RECEIVED.items()},
}
"""What the ICAO angles are made of: ground, monitor and receiver; the aid that gives track adds the pilot's part."""

AIDS = ("vor", "ndb", "localizer")
"""TACAN azimuth counts as VOR."""
