"""The envelope as a construction: parts, sheet and drawing. What the envelope itself is, is tested with envelope."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry.protection import envelope, envelope_areas, icao
from fixwright.geometry.protection.areas import Designs, Options
from fixwright.geometry.protection.envelope_states import CIRCUIT, MANOEUVRE_CODES
from fixwright.geometry.protection.placing import CHORD_SHARE, place_areas

NM = 1852.0
SQUARE = 0.7 * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]], float)


def designs(ias=(150.0,), alt=(6000.0,), minutes=1.0, arrivals=None, corners=None):
    n = len(ias)
    nothing = np.full(n, np.nan)
    return Designs(
        np.array(ias, float), np.array(alt, float), np.full(n, minutes), nothing, nothing, nothing,
        [np.zeros((1, 2)) if corners is None else corners] * n, [arrivals] * n,
    )  # fmt: skip


def reach(ring, alpha):
    return np.max(np.stack([np.cos(alpha), np.sin(alpha)], axis=1) @ np.asarray(ring).T, axis=1)


def outer(area):
    return area.polygons_nm[0][0]


@pytest.mark.parametrize(
    ("ias", "alt", "minutes", "tolerance_m", "corners"),
    [
        (150.0, 6000.0, 1.0, 5.0, None),
        (90.0, 1605.0, 1.0, 1.0, None),  # wind half as fast as the aeroplane
        (230.0, 14_000.0, 1.5, 5.0, SQUARE),
        (120.0, 3000.0, 3.0, 100.0, SQUARE),
    ],
)
def test_parts_contain_what_they_should(ias, alt, minutes, tolerance_m, corners):
    """Basic part: the circuits over the tolerance area. With the entries: all flights. Buffers: as many miles more.

    Each reaches at least so far in any direction, by an independent call, and once placed exceeds it by no more than
    the tolerance, of which CHORD_SHARE is for chords in degrees."""
    one = designs([ias], [alt], minutes, corners=corners)
    made = {area.part: area for area in envelope_areas.areas(one, Options(tolerance_m))}
    area = made["basic"]
    alpha = np.radians(np.arange(0.3, 360.0, 1.7))
    lines = icao.figures(one, Options()).values
    given = (lines["V"], lines["R"], lines["w"], lines["t"])
    over = 0.0 if corners is None else reach(SQUARE, alpha)
    circuit, both = (envelope.support(*given, codes, alpha)[0][0] + over for codes in ((CIRCUIT,), MANOEUVRE_CODES))
    least, most = CHORD_SHARE * tolerance_m / NM * 0.999, (1.0 - CHORD_SHARE) * tolerance_m / NM + 2e-5
    more = reach(outer(area), alpha) - circuit
    assert more.min() >= least and more.max() <= most
    edge = np.fmax(reach(np.concatenate([outer(area)] + [p[0] for p in made["entry"].polygons_nm]), alpha), 0.0)
    assert (edge - both).min() >= least and (edge - both).max() <= most
    for k in range(1, 6):
        more = reach(outer(made[f"buffer_{k}"]), alpha) - both - k
        assert more.min() >= least and more.max() <= most


def test_placed_it_still_contains_every_flight():
    """At 70 degrees of latitude, where a chord in degrees strays most: every piece of the drawn edge lies outside the
    true area, by no more than the tolerance; told by support lines square to the edges and half a degree apart."""
    from fixwright.geometry import geodesy

    one = designs([220.0], [10_000.0])
    found = [area for area in envelope_areas.areas(one, Options()) if area.part == "basic"]
    corners = place_areas([25.0], [70.0], [33.0], [1], found, 5.0).coords
    points = np.concatenate([corners[:-1] + share * np.diff(corners, axis=0) for share in np.linspace(0, 1, 9)[:-1]])
    drawn = np.stack(geodesy.to_frame(25.0, 70.0, 33.0, 1, *points.T), axis=1)
    edges = np.roll(outer(found[0]), -1, axis=0) - outer(found[0])
    normals = np.mod(np.arctan2(-edges[:, 0], edges[:, 1]), 2.0 * np.pi)
    normals = np.sort(np.concatenate([normals, np.radians(np.arange(0.0, 360.0, 0.5))]))
    lines = icao.figures(one, Options()).values
    true, _ = envelope.support(lines["V"], lines["R"], lines["w"], lines["t"], (CIRCUIT,), normals)
    beyond = (drawn @ np.stack([np.cos(normals), np.sin(normals)]) - true[0]).max(axis=1) * NM
    assert beyond.min() > 0.0 and beyond.max() < 5.0


def test_entries():
    one = [area.part for area in envelope_areas.areas(designs(), Options(entries="none"))]
    assert one == ["basic", *[f"buffer_{k}" for k in range(1, 6)]]
    size = {}
    for name, arrivals in (("none", np.zeros(0)), ("one", np.array([150.0])), ("all", None)):
        found = envelope_areas.areas(designs(arrivals=arrivals), Options(entries="arrivals"))
        ring = outer(found[-1])
        x, y = ring.T
        size[name] = 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
    assert size["none"] < size["one"] < size["all"]
    every = envelope_areas.areas(designs(arrivals=np.array([150.0])), Options(entries="all"))
    x, y = outer(every[-1]).T
    assert 0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) == pytest.approx(size["all"], rel=1e-9)


def test_too_much_wind_is_refused():
    """A slow aeroplane in a hundred knots: refused in words, and no area."""
    both = designs([80.0, 200.0], [5000.0, 5000.0])
    why = envelope_areas.refusals(both, Options(wind_kt=100.0))
    assert why[0].startswith("the wind of 100 kt is more than 0.85 of the true airspeed of 88 kt") and why[1] == ""
    assert envelope_areas.areas(designs([], []), Options()) == []


def test_sheet():
    """Tolerances of ICAO Doc 8168 Vol II, p. I-4-3-7 h), that of the heading from memory; what is ours is derived."""
    found = envelope_areas.values(designs(), Options())
    by_name = {value.name: value for value in found}
    assert by_name["V"].value == pytest.approx(150.0 * 1.1231, abs=0.01)
    assert (by_name["start, least"].value, by_name["start, greatest"].value) == (5.0, 11.0)
    assert (by_name["heading, greatest"].value, by_name["timing, greatest"].value) == (5.0, 10.0)
    assert by_name["heading, greatest"].mark == "from memory" and by_name["timing, least"].mark == "published"
    wind = {value.name: value for value in envelope_areas.values(designs(), Options(wind_kt=33.0))}["w"]
    assert (wind.value, wind.formula, wind.mark) == (33.0, "as given", "as entered")
    assert by_name["reach behind the fix, circuit"].mark == "derived"
    circuit, both = (by_name[f"reach ahead of the fix, {whose}"].value for whose in ("circuit", "circuit and entries"))
    assert circuit < both
    assert all(value.source for value in found) and [value.number for value in found][:3] == ["1", "2", "3"]


def test_drawing():
    drawn = envelope_areas.drawing(designs(corners=SQUARE), Options())
    assert [(one.kind, one.letter) for one in drawn] == [
        ("point", "a"), ("outline", "A"), ("outline", "C"), ("outline", "E")
    ]  # fmt: skip
    alpha = np.radians(np.arange(0.0, 360.0, 5.0))
    assert (reach(drawn[3].path_nm, alpha) >= reach(drawn[2].path_nm, alpha) - 1e-4).all()
    assert np.allclose(drawn[1].path_nm[0], drawn[1].path_nm[-1])
