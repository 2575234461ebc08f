"""Rows of the holds layer, and what is drawn from them: patterns and tracks.

The essentials of a hold go in; everything derived is computed anew, never read back.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .. import holds, navaids, racetrack, reasons
from ..angles import wrap360
from ..atmosphere import STANDARD_QNH_HPA
from ..holds import Holds
from ..navaids import TRUE
from .keys import Keys, unique
from .layer import Layer
from .marking import STATION_COLUMNS

LEAST_IAS_NOTE = "90 kt, the least for holding by FAA AIM 5-3-8 j.2"


@dataclass(frozen=True)
class HoldRows:
    """Holds as columns of the layer, N rows; the figures behind them; the reason of each failed row."""

    columns: dict[str, np.ndarray]
    holds: Holds
    reasons: np.ndarray

    @property
    def good(self) -> np.ndarray:
        """Mask of the rows that gave a hold."""
        return self.reasons == ""

    def take(self, index) -> HoldRows:
        """The rows of an index or mask."""
        index = np.asarray(index, dtype=np.int64) if len(index) == 0 else np.asarray(index)
        return HoldRows({k: v[index] for k, v in self.columns.items()}, self.holds.take(index), self.reasons[index])


def design_holds(
    fix: dict[str, np.ndarray],
    names,
    keys: Keys | None,
    *,
    inbound_deg,
    north,
    turn,
    leg_min,
    leg_nm,
    leg_end,
    ias_kt,
    area_ias_kt,
    alt_ft,
    alt_to_ft,
    isa_dev_c,
    rules,
    qnh_hpa=STANDARD_QNH_HPA,
    var_date: str,
    year: float,
) -> HoldRows:
    """Hold rows from fix rows, with what the trade assumes for empty values.

    Empty inbound: along the course of the fix; leg: the rules' standard time; leg end: DME where the station
    gives it; IAS: 90 kt; temperature: ISA. Parameters: fix, columns lon, lat, fix and, where known, those of
    marking.STATION_COLUMNS, course_true_deg; names (N,) of the holds; numbers with NaN and codes with -1 for
    empty; turn 0 right, 1 left. Returns: HoldRows. Source: see holds.design.
    """
    n = len(fix["lon"])
    number = {
        k: np.array(np.broadcast_to(np.asarray(v, dtype=np.float64), n))
        for k, v in dict(
            inbound=inbound_deg, leg_min=leg_min, leg_nm=leg_nm, ias=ias_kt, area_ias=area_ias_kt, alt=alt_ft,
            alt_to=alt_to_ft, isa=isa_dev_c,
        ).items()
    }
    code = {
        k: np.array(np.broadcast_to(np.asarray(v), n))
        for k, v in dict(north=north, turn=turn, leg_end=leg_end, rules=rules).items()
    }
    assumed = np.full(n, "", dtype=object)

    def assume(mask, write):
        reasons.note(assumed, mask, write)

    course = fix.get("course_true_deg", np.full(n, np.nan))
    empty = ~np.isfinite(number["inbound"]) & np.isfinite(course)
    number["inbound"] = np.where(empty, course, number["inbound"])
    given = np.isfinite(number["inbound"]) & ~empty
    code["north"] = np.where(empty, TRUE, np.where(code["north"] < 0, navaids.STATION, code["north"]))
    assume(empty, lambda i: "inbound along the course of the fix")
    known = np.isfinite(fix.get("navaid_lat", np.full(n, np.nan)))
    aligned = np.isfinite(np.broadcast_to(fix.get("navaid_decl_deg", np.nan), n))
    by_station = given & (code["north"] == navaids.STATION) & ~aligned
    has_radials = navaids.gives_radials(fix.get("navaid_kind", np.full(n, "", dtype=object)))
    no_declination = by_station & known & has_radials
    assume(by_station & ~no_declination, lambda i: "the inbound course from the aircraft's magnetic north")

    empty = code["rules"] < 0
    code["rules"] = np.where(empty, holds.ICAO, code["rules"])
    assume(empty, lambda i: "rules of ICAO Doc 8168")
    empty = code["turn"] < 0
    code["turn"] = np.where(empty, 0, code["turn"])
    assume(empty, lambda i: "right turns")
    both = np.isfinite(number["leg_min"]) & np.isfinite(number["leg_nm"])
    empty = ~np.isfinite(number["leg_min"]) & ~np.isfinite(number["leg_nm"])
    standard = holds.standard_leg_min(number["alt"], code["rules"])
    number["leg_min"] = np.where(empty, standard, number["leg_min"])
    timed = [holds.LEG_RULES[name][0].timed_leg for name in holds.RULES]
    assume(empty & np.isfinite(standard), lambda i: f"{standard[i]:g} min {timed[int(code['rules'][i])]}")

    has_dme = navaids.gives_range(fix.get("navaid_kind", np.full(n, "", dtype=object)))
    elev = fix.get("navaid_elev_ft", np.full(n, np.nan))
    by_dme = has_dme & np.isfinite(elev) & np.isfinite(fix.get("navaid_lat", np.full(n, np.nan)))
    empty = code["leg_end"] < 0
    distance_leg = np.isfinite(number["leg_nm"])
    code["leg_end"] = np.where(empty, np.where(by_dme, holds.DME_END, holds.ALONG_TRACK), code["leg_end"])
    assume(
        empty & distance_leg,
        lambda i: "the leg ends at a DME reading" if by_dme[i] else "the leg ends by distance along the track",
    )
    empty = ~np.isfinite(number["ias"])
    number["ias"] = np.where(empty, holds.LEAST_SPEED_KT, number["ias"])
    assume(empty, lambda i: LEAST_IAS_NOTE)
    top = np.fmax(number["alt"], number["alt_to"])
    most = holds.maximum_ias_in_block_kt(number["alt"], top, code["rules"])
    assume(
        ~np.isfinite(number["area_ias"]) & np.isfinite(most),
        lambda i: f"the area for {most[i]:.0f} kt, the most that may hold here",
    )
    empty = ~np.isfinite(number["isa"])
    number["isa"] = np.where(empty, 0.0, number["isa"])
    assume(empty, lambda i: "ISA temperature")

    made = holds.design(
        fix["lon"],
        fix["lat"],
        inbound_deg=number["inbound"],
        north=code["north"],
        side=np.where(code["turn"] == 1, -1, 1),
        rules=code["rules"],
        leg_min=number["leg_min"],
        leg_nm=number["leg_nm"],
        leg_end=code["leg_end"],
        ias_kt=number["ias"],
        area_ias_kt=number["area_ias"],
        alt_ft=number["alt"],
        alt_to_ft=number["alt_to"],
        isa_dev_c=number["isa"],
        qnh_hpa=np.where(np.isfinite(qnh_hpa), qnh_hpa, STANDARD_QNH_HPA),
        navaid_lon=fix.get("navaid_lon", np.nan),
        navaid_lat=fix.get("navaid_lat", np.nan),
        navaid_elev_ft=elev,
        decl_deg=fix.get("navaid_decl_deg", np.nan),
        has_dme=has_dme,
        year=year,
    )
    why = reasons.sentences(reasons.first(made.code, reasons.where(no_declination, reasons.NO_DECLINATION)))
    why = np.where((why == "") & both, "the leg is given both in minutes and in NM", why)
    key, notes = unique(keys, np.where(why == "", names, ""))
    columns = _hold_columns(made, fix, key, var_date)
    columns["limits"] = reasons.join(fix.get("limits", ""), made.limits)
    columns["assumed"] = reasons.join(fix.get("assumed", ""), assumed, notes)
    return HoldRows(columns, made, why.astype(object))


def holds_from_columns(columns: dict[str, np.ndarray], year: float) -> HoldRows:
    """Hold rows from a holds layer: the essentials are read, the rest is computed anew.

    Parameters: columns of the layer (its words for rules, turn, leg_kind and leg_end). Returns: HoldRows with
    the layer's own keys.
    """
    n = len(columns["lon"])

    def codes(name: str, words: tuple[str, ...], empty: int) -> np.ndarray:
        given = columns.get(name, np.full(n, "", dtype=object))
        table = {word: i for i, word in enumerate(words)}
        return np.array([table.get(str(w).strip().lower(), empty) for w in given], dtype=np.int64)

    def numbers(name: str) -> np.ndarray:
        return np.asarray(columns.get(name, np.full(n, np.nan)), dtype=np.float64)

    kind = codes("leg_kind", holds.LEG_KINDS, holds.TIME)
    fix = dict(columns)
    fix["course_true_deg"] = np.full(n, np.nan)
    fix["limits"] = fix["assumed"] = np.full(n, "", dtype=object)
    result = design_holds(
        fix,
        columns["hold"],
        None,
        inbound_deg=numbers("inbound_true_deg"),
        north=TRUE,
        turn=codes("turn", holds.TURNS, -1),
        leg_min=np.where(kind == holds.TIME, numbers("leg_min"), np.nan),
        leg_nm=np.where(kind == holds.DISTANCE, numbers("leg_nm"), np.nan),
        leg_end=codes("leg_end", holds.LEG_ENDS, -1),
        ias_kt=numbers("ias_kt"),
        area_ias_kt=numbers("area_ias_kt"),
        alt_ft=numbers("alt_ft"),
        alt_to_ft=numbers("alt_to_ft"),
        isa_dev_c=numbers("isa_dev_c"),
        rules=codes("rules", holds.RULES, -1),
        qnh_hpa=numbers("qnh_hpa"),
        var_date="",
        year=year,
    )
    return result


def _hold_columns(made: Holds, fix: dict[str, np.ndarray], key, var_date: str) -> dict[str, np.ndarray]:
    n = len(made.lon)
    columns = {
        "hold": key,
        "fix": np.asarray(fix.get("fix", np.full(n, "", dtype=object)), dtype=object),
        "rules": _words(made.rules, holds.RULES),
        "inbound_true_deg": made.inbound_true_deg,
        "turn": np.where(made.side < 0, "left", "right").astype(object),
        "leg_kind": _words(made.leg_kind, holds.LEG_KINDS),
        "leg_min": made.leg_min,
        "leg_nm": made.leg_nm,
        "leg_end": np.where(made.leg_kind == holds.DISTANCE, _words(made.leg_end, holds.LEG_ENDS), "").astype(object),
    }
    same = ("ias_kt", "area_ias_kt", "alt_ft", "alt_to_ft", "isa_dev_c", "qnh_hpa", "inbound_model_deg")
    same += ("inbound_station_deg",)
    same += ("outbound_model_deg", "tas_kt", "bank_deg", "rate_dps", "radius_nm", "width_nm", "length_nm", "circuit_s")
    same += ("outbound_end_dme_nm", "lat", "lon", "var_deg")
    columns.update({name: getattr(made, name) for name in same})
    columns["var_date"] = np.full(n, var_date, dtype=object)
    columns.update({name: fix[name] for name in STATION_COLUMNS if name in fix})
    return columns


def _words(codes, words: tuple[str, ...]) -> np.ndarray:
    return np.array(words, dtype=object)[np.asarray(codes, dtype=np.int64)]


def pattern_rows(rows: HoldRows, tolerance_m: float = 5.0) -> Layer:
    """Racetracks of the good holds: a Layer with the fields of patterns."""
    index = np.flatnonzero(rows.good)
    made = rows.holds.take(index)
    coords, offsets = racetrack.rings(
        made.lon, made.lat, made.inbound_true_deg, made.side, made.radius_nm, made.straight_nm, tolerance_m
    )
    names = ("hold", "fix", "rules", "turn", "inbound_model_deg", "outbound_model_deg", "leg_kind", "leg_min", "leg_nm")
    names += ("ias_kt", "alt_ft", "alt_to_ft")
    return Layer({name: rows.columns[name][index] for name in names}, coords, offsets)


def track_rows(rows: HoldRows, tolerance_m: float = 5.0) -> Layer:
    """Legs of the good holds in the order flown: a Layer with the fields of tracks, hold by hold."""
    index = np.flatnonzero(rows.good)
    made = rows.holds.take(index)
    coords, offsets = racetrack.legs(
        made.lon, made.lat, made.inbound_true_deg, made.side, made.radius_nm, made.straight_nm, tolerance_m
    )
    n, per = len(index), len(holds.LEGS)
    half = np.pi * made.radius_nm
    nothing = np.full(n, np.nan)
    inbound, outbound = made.inbound_true_deg, wrap360(made.inbound_true_deg + 180.0)

    def by_leg(turn_out, out, turn_in, back):
        return np.stack([turn_out, out, turn_in, back], axis=1).ravel()

    length = by_leg(half, made.straight_nm, half, made.straight_nm)
    columns = {
        "hold": np.repeat(rows.columns["hold"][index], per),
        "leg": np.tile(np.array(holds.LEGS, dtype=object), n),
        "length_nm": length,
        "time_s": length / np.repeat(made.tas_kt, per) * 3600.0,
        "course_true_deg": by_leg(nothing, outbound, nothing, inbound),
        "course_model_deg": by_leg(nothing, made.outbound_model_deg, nothing, made.inbound_model_deg),
    }
    return Layer(columns, coords, offsets)
