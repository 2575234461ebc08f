"""A flight as a sequence of straight segments and turns in a steady wind, in closed form.

Frame of the hold (geodesy.place), computed as a right hold; a left one is its mirror image. In a segment the
heading turns at a constant rate, 0 on a straight one; the wind only adds its speed times the time. A turn begins and
ends with half the roll time straight on. Derived here, see DEVELOPERS.md.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cached_property
from typing import NamedTuple

import numpy as np

from . import geodesy
from .angles import wrap180, wrap360
from .units import NM_M

KINDS = ("arrival", "turn_out", "outbound", "turn_in", "intercept", "roll_out", "inbound")
"""Kinds of segments: what an aeroplane does in a hold, in the order of doing it. roll_out is the turn from an
intercept heading onto the course."""
ARRIVAL, TURN_OUT, OUTBOUND, TURN_IN, INTERCEPT, ROLL_OUT, INBOUND = range(7)
ABSENT_S = 1e-6
"""A segment not longer than this is not there."""
SAME_PLACE_NM = 1e-9


class State(NamedTuple):
    """Where an aeroplane is and how it moves: the frame in NM, degrees true at the fix, kt."""

    u_nm: np.ndarray
    s_nm: np.ndarray
    heading_true_deg: np.ndarray
    track_true_deg: np.ndarray
    gs_kt: np.ndarray
    drift_deg: np.ndarray


class Lines(NamedTuple):
    """Sampled lines: coords (T, 2) of lon (unwrapped to the fix) and lat, seconds (T,), offsets (N P + 1,)."""

    coords: np.ndarray
    seconds: np.ndarray
    offsets: np.ndarray


def displacement(
    v, wa, wc, heading_rad, rate_rad_s, seconds, roll_s=0.0, whole_s=None
) -> tuple[np.ndarray, np.ndarray]:
    """Way made good in a segment: v t sinc(w t / 2) along the mean heading, and the wind.

    Parameters: v, wa, wc in NM/s; heading at the start and signed rate in the frame; seconds; roll_s, of which half is
    flown straight on before and after turning; whole_s, how long the segment lasts of which seconds is the first part
    (default: the whole); they broadcast. Returns: along u and towards s, NM. The mean heading's form holds for a
    straight segment too.
    """
    heading, seconds = np.asarray(heading_rad, float), np.asarray(seconds, float)
    before, turning = _rolled(seconds, seconds if whole_s is None else whole_s, roll_s)
    half = np.asarray(rate_rad_s, float) * turning / 2.0
    chord = v * turning * np.sinc(half / np.pi)
    along, across = chord * np.cos(heading + half), chord * np.sin(heading + half)
    if np.any(roll_s):
        after = seconds - before - turning
        along = along + v * (before * np.cos(heading) + after * np.cos(heading + 2.0 * half))
        across = across + v * (before * np.sin(heading) + after * np.sin(heading + 2.0 * half))
    return along + wa * seconds, across + wc * seconds


def _rolled(seconds, whole_s, roll_s):
    """Of the first seconds of a segment, how many are straight on before turning, and how many are turning."""
    if not np.any(roll_s):
        return 0.0, seconds
    before = np.minimum(seconds, np.asarray(roll_s, float) / 2.0)
    return before, np.minimum(seconds - before, np.maximum(np.asarray(whole_s, float) - roll_s, 0.0))


@dataclass(frozen=True)
class Segments:
    """Flights of N rows in K segments.

    duration_s, rate_rad_s (signed, 0 straight) and heading_rad (at the segment's start) are (N, K), in the
    frame; an absent segment lasts 0 s. kind and circuit (K,) tell what each column is. The column first starts
    over the fix at 0 s. v, wa, wc (N,) in NM/s; inbound_true_deg and side (N,) turn the frame into courses; roll_s
    (N,), what rolling in and out adds to each turn.
    """

    duration_s: np.ndarray
    rate_rad_s: np.ndarray
    heading_rad: np.ndarray
    kind: np.ndarray
    circuit: np.ndarray
    first: int
    v: np.ndarray
    wa: np.ndarray
    wc: np.ndarray
    inbound_true_deg: np.ndarray
    side: np.ndarray
    roll_s: np.ndarray

    def take(self, rows) -> Segments:
        """The flights of an index or mask."""
        whole = ("kind", "circuit", "first")
        return Segments(*[getattr(self, f.name) if f.name in whole else getattr(self, f.name)[rows]
                          for f in fields(self)])  # fmt: skip

    @cached_property
    def present(self) -> np.ndarray:
        """True where a segment is there (N, K)."""
        return self.duration_s > ABSENT_S

    @cached_property
    def start_s(self) -> np.ndarray:
        """Seconds from the first crossing at each segment's start (N, K)."""
        return self._running(self.duration_s)

    @cached_property
    def _start_us(self) -> tuple[np.ndarray, np.ndarray]:
        each = displacement(*self._wide(), self.heading_rad, self.rate_rad_s, self.duration_s, self.roll_s[:, None])
        return self._running(each[0]), self._running(each[1])

    def _running(self, each: np.ndarray) -> np.ndarray:
        """What is summed up at each segment's start, 0 over the fix, where rounding would leave a little."""
        before = np.cumsum(np.insert(each, 0, 0.0, axis=1), axis=1)
        return (before - before[:, [self.first]])[:, :-1]

    def _wide(self):
        return self.v[:, None], self.wa[:, None], self.wc[:, None]

    @cached_property
    def turned_rad(self) -> np.ndarray:
        """Signed angle that each segment turns (N, K)."""
        return self.rate_rad_s * _rolled(self.duration_s, self.duration_s, self.roll_s[:, None])[1]

    @property
    def end_s(self) -> np.ndarray:
        """Seconds from the first crossing at the end of the flight (N,)."""
        return self.start_s[:, -1] + self.duration_s[:, -1]

    def place(self, row, column, seconds) -> tuple[np.ndarray, np.ndarray]:
        """Places u, s some seconds into segments. Parameters: equal shapes, seconds from the segment's start."""
        heading, rate = self.heading_rad[row, column], self.rate_rad_s[row, column]
        air = self.v[row], self.wa[row], self.wc[row]
        du, ds = displacement(*air, heading, rate, seconds, self.roll_s[row], self.duration_s[row, column])
        u, s = self._start_us
        return u[row, column] + du, s[row, column] + ds

    def state(self, row, column, seconds) -> State:
        """States some seconds into segments. Parameters as place."""
        turning = _rolled(seconds, self.duration_s[row, column], self.roll_s[row])[1]
        now = self.heading_rad[row, column] + self.rate_rad_s[row, column] * turning
        vu, vs = self.v[row] * np.cos(now) + self.wa[row], self.v[row] * np.sin(now) + self.wc[row]
        theta, side = self.inbound_true_deg[row], self.side[row]
        true = theta + side * np.degrees(now)
        track = theta + side * np.degrees(np.arctan2(vs, vu))
        return State(
            *self.place(row, column, seconds), wrap360(true), wrap360(track), np.hypot(vu, vs) * 3600.0,
            wrap180(track - true),
        )  # fmt: skip

    def at(self, seconds) -> State:
        """States at times from the first crossing.

        Parameters: seconds (N,) or (N, M). Returns: State of that shape; NaN before the start and after the end.
        """
        seconds = np.asarray(seconds, float)
        wide = seconds.reshape(len(self.v), -1)
        # The last present segment that has begun; an absent one has the time of the next.
        begun = self.present[:, None, :] & (self.start_s[:, None, :] <= wide[..., None] + 1e-12)
        column = begun.shape[2] - 1 - np.argmax(begun[..., ::-1], axis=2)
        row = np.broadcast_to(np.arange(len(self.v))[:, None], wide.shape)
        outside = ~begun.any(axis=2) | (wide > self.end_s[:, None] + 1e-9)
        found = self.state(row, column, np.where(outside, np.nan, wide - self.start_s[row, column]))
        return State(*[a.reshape(seconds.shape) for a in found])


def sample(segments: Segments, lon, lat, tolerance_m: float = 5.0, part=None) -> Lines:
    """Flights as lines with the seconds at each vertex.

    Vertices lie on the path. In a turn the chord over t seconds is off by at most v omega t^2 / 8, whatever the
    wind; a straight segment is cut because a layer in degrees draws its chord in longitude and latitude.
    Parameters: segments; lon, lat of the fixes (N,); tolerance_m > 0; part (K,), whole numbers 0 to P - 1, the
    line each column belongs to (default: one line a flight). Returns: Lines, flight by flight and part by part;
    a part that is not there, and a row that holds NaN, has no vertices. Seconds increase along a line.
    Errors: ValueError for a tolerance that is not positive. Derived here, see DEVELOPERS.md.
    """
    count = _chord_counts(segments, lat, tolerance_m)
    n, columns = count.shape
    part = np.zeros(columns, dtype=np.int64) if part is None else np.asarray(part, dtype=np.int64)
    parts = int(part.max(initial=0)) + 1
    begins = np.zeros(count.shape, dtype=bool)
    size = np.zeros((n, parts), dtype=np.int64)
    for p in range(parts):
        mine = count * (part == p)
        begins |= (mine > 0) & (np.cumsum(mine > 0, axis=1) == 1)
        size[:, p] = mine.sum(axis=1)
    size += size > 0
    twin = _twins(segments)
    placed, into, base = _placed(segments, lon, lat, count * (twin == np.arange(columns)))
    row, column = np.nonzero(count)
    order = np.lexsort((column, part[column], row))
    row, column = row[order], column[order]
    opens = begins[row, column].astype(np.int64)
    vertices = count[row, column] + opens
    # Vertex k of a segment; its start is the end of the one before, unless a line begins there.
    first = base[row, twin[row, column]] + 1 - opens
    index = np.arange(vertices.sum()) + np.repeat(first - (np.cumsum(vertices) - vertices), vertices)
    seconds = np.repeat(segments.start_s[row, column], vertices) + into[index]
    return Lines(placed[index], seconds, np.concatenate([[0], np.cumsum(size.ravel())]).astype(np.int64))


def _placed(segments: Segments, lon, lat, count) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Vertices of segments in count + 1 places each: (V, 2) lon and lat, (V,) s into them, (N, K) where each begins."""
    row, column = np.nonzero(count)
    vertices = count[row, column] + 1
    start = np.cumsum(vertices) - vertices
    base = np.zeros(count.shape, dtype=np.int64)
    base[row, column] = start
    step = np.arange(vertices.sum()) - np.repeat(start, vertices)
    into = np.repeat(segments.duration_s[row, column] / count[row, column], vertices) * step
    row, column = np.repeat(row, vertices), np.repeat(column, vertices)
    lon, lat = (np.broadcast_to(np.asarray(a, float), count.shape[:1])[row] for a in (lon, lat))
    u, s = segments.place(row, column, into)
    out = geodesy.place(lon, lat, segments.inbound_true_deg[row], segments.side[row], u, s)
    return np.stack(out, axis=1), into, base


def _twins(segments: Segments) -> np.ndarray:
    """The first segment that is flown over the same ground (N, K): every circuit like the one before it."""
    n, columns = segments.duration_s.shape
    twin = np.tile(np.arange(columns), (n, 1))
    u, s = segments._start_us
    for kind in np.unique(segments.kind):
        mine = np.flatnonzero(segments.kind == kind)
        for before, here in zip(mine[:-1], mine[1:]):
            same = (np.abs(u[:, here] - u[:, before]) < SAME_PLACE_NM) & (
                np.abs(s[:, here] - s[:, before]) < SAME_PLACE_NM
            )
            for each in (segments.duration_s, segments.rate_rad_s, segments.heading_rad):
                same &= each[:, here] == each[:, before]
            twin[:, here] = np.where(same, twin[:, before], here)
    return twin


def _chord_counts(segments: Segments, lat, tolerance_m: float) -> np.ndarray:
    """Pieces of each segment (N, K), 0 where there is none."""
    v, wa, wc = segments._wide()
    seconds = np.where(segments.present, segments.duration_s, 0.0)
    with np.errstate(invalid="ignore"):
        way = np.hypot(v * np.cos(segments.heading_rad) + wa, v * np.sin(segments.heading_rad) + wc) * seconds
        far = np.abs(np.asarray(lat, float)).reshape(-1, 1) + np.max(way, axis=1, keepdims=True, initial=0.0) / 30.0
        straight = way / geodesy.longest_piece_nm(far, tolerance_m)
        turn = seconds * np.sqrt(v * np.abs(segments.rate_rad_s) / (8.0 * tolerance_m / NM_M))
        pieces = np.where(segments.rate_rad_s == 0.0, straight, turn)
    good = segments.present & np.isfinite(pieces) & np.isfinite(segments.end_s)[:, None]
    return np.where(good, np.maximum(np.ceil(np.where(good, pieces, 0.0) - 1e-9), 1.0), 0.0).astype(np.int64)
