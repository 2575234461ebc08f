"""Flights by area navigation against the area derived for them from the document's XE and YE.

They are marched over the ground by hold_simulator. Drift is corrected on both straights, the outbound one ends its
length past the fix, the turns begin 5 to 11 s late and are flown at the template's rate in full wind from any one
direction. The document gives no figures for how much of such flights its area leaves outside; those of its timed
template serve as the measure: up to 0.35 % of the time, 0.64 NM.
"""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry.protection import icao
from fixwright.geometry.protection.areas import Options
from fixwright.tests.geometry import hold_simulator as simulator
from fixwright.tests.geometry.test_template_flown import designs, edges_of, holding, told

FLIGHTS = 2000
IAS, ALTITUDES = [110.0, 165.0, 200.0, 257.0, 219.0], [4000.0, 4700.0, 13000.0, 20600.0, 27600.0]


def flown(values: dict[str, float], name: str, rng):
    """Places (K, F, 2) and seconds before each (K, F)."""
    rule = simulator.MANOEUVRES[name]
    arrivals, outbound, first = rule.arrivals, np.radians(rule.outbound), rule.first
    drawn = simulator.draw(rng, FLIGHTS, arrivals, [(0.0, 0.0)], at_limits=0.0)
    plane = simulator._Marching(values["V"], values["R"], values["w"], drawn._replace(wind_share=np.ones(FLIGHTS)))

    def heading(track):
        across = plane.wind[:, 0] * np.sin(track) - plane.wind[:, 1] * np.cos(track)
        return track + np.arcsin(across / plane.v)

    plane.straight(drawn.start_s, 6)
    turn = heading(outbound) - plane.heading
    plane.turn(first * np.mod(first * turn, 2.0 * np.pi) if first else np.mod(turn + np.pi, 2.0 * np.pi) - np.pi)
    along = np.array([np.cos(outbound), np.sin(outbound)])
    plane.straight(np.maximum(values["D"] - plane.at @ along, 0.0) / (plane.ground(plane.heading) @ along), 12)
    plane.straight(drawn.react_s, 4)
    turn = heading(np.radians(rule.end)) - plane.heading
    plane.turn(rule.second * np.mod(rule.second * turn, 2.0 * np.pi))
    return np.stack(plane.places), np.stack(plane.seconds)


@pytest.mark.parametrize("manoeuvre", ["circuit", "direct", "teardrop", "parallel"])
def test_flights_by_area_navigation_stay_inside(manoeuvre):
    ias, alt, minutes = holding(IAS, ALTITUDES)
    options = Options(navigation="rnav", slow_ias_kt=np.nan)
    made = icao.figures(designs(ias, alt, minutes), options)
    basic, whole = (edges_of(shape, len(ias)) for shape in icao.reaches(made, options))
    rng, alone = np.random.default_rng(6), 0.0
    for k in range(len(ias)):
        places, seconds = flown({name: float(a[k]) for name, a in made.values.items()}, manoeuvre, rng)
        share, far = told((basic if manoeuvre == "circuit" else whole)[k], places, seconds)
        print(f"{manoeuvre} {ias[k]:.0f} kt: outside {share:.3f} %, {far:.2f} NM")
        assert share <= 0.35 and far <= 0.64
        alone = max(alone, told(basic[k], places, seconds)[0])
        if manoeuvre == "circuit":
            # Nor is it far too large for them.
            _, touch = simulator.reach(
                simulator.outermost(places.reshape(-1, 2)), np.radians(np.arange(0.0, 360.0, 2.0))
            )
            assert basic[k].area < 1.3 * simulator.area(touch)
    assert manoeuvre == "circuit" or alone > 1.0
