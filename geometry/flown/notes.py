"""What a pilot should know of a flight in a hold, in sentences."""

from __future__ import annotations

import numpy as np

from .. import entries, holds, reasons
from ..circuit import Circuit
from ..holds import Holds
from ..leaving import Leaving
from .entering import Entering


def of_flights(hold: Holds, usual: Circuit, entry: Entering, code) -> np.ndarray:
    """What a pilot should know of circuits and entries: object array of sentences.

    Parameters: hold, its usual circuit and entry, N rows; code, 0 where it is flown.
    """
    notes = np.full(len(code), "", dtype=object)
    good = code == reasons.OK
    arrival = entry.arrival
    words = [entries.WORDS[rules] for rules in holds.RULES]

    def word(i: int, which) -> str:
        return words[int(hold.rules[i])][int(which[i])]

    reasons.note(
        notes,
        good & (hold.leg_kind == holds.DISTANCE) & (usual.inbound_s < holds.LEAST_INBOUND_S),
        lambda i: (
            f"the inbound leg lasts {np.floor(usual.inbound_s[i] * 10.0) / 10.0:.1f} s in this wind, less than "
            f"{holds.LEAST_INBOUND_S:.0f} s ({holds.LEAST_INBOUND_SOURCE})"
        ),
    )
    by_course, flies = arrival.by_course.entry, arrival.by_heading.entry
    by_heading = np.where(arrival.barred, entries.TEARDROP, flies)
    reasons.note(
        notes,
        good & entry.given & (by_heading != by_course),
        lambda i: (
            f"the drift changes the entry: {word(i, by_course)} by the course, {word(i, by_heading)} by the heading"
        ),
    )
    reasons.note(
        notes,
        good & entry.given & arrival.barred,
        lambda i: f"along the DME arc no {word(i, by_heading)} entry, so {word(i, flies)}",
    )
    reasons.note(
        notes,
        good & entry.given & (flies == entries.DIRECT) & ~entry.way.path.closes,
        lambda i: (
            "in this wind the direct entry does not end on the course by the hold's own leg, so it flies the "
            "outbound leg of the circuit and intercepts"
        ),
    )
    missed = entry.way.missed | (entry.joins & (entry.joining is not None and entry.joining.missed))
    reasons.note(
        notes,
        good & entry.given & missed,
        lambda i: "a leg of the entry is timed, since it meets no place where the hold's distance would end it",
    )
    reasons.note(
        notes,
        good & entry.joins,
        lambda i: "the entry meets the inbound course only past the fix, so it goes to the fix and joins from there",
    )
    reasons.note(
        notes,
        good & entry.given & (entry.longer_s > 0.0),
        lambda i: (
            f"a leg of the entry is flown {entry.longer_s[i]:.0f} s longer, since in this wind its own time "
            "leads past both the course and the fix"
        ),
    )
    return notes


def of_leaving(notes: np.ndarray, plan: Leaving, asked, most_circuits: int) -> None:
    """Add what a pilot should know of the time to leave. Parameters: notes, sentences (N,); plan; asked (N,)."""
    reasons.note(notes, asked & (plan.note != ""), lambda i: plan.note[i])
    reasons.note(
        notes,
        asked & (plan.circuits > most_circuits),
        lambda i: f"{plan.circuits[i]} circuits fit before the time to leave; the first {most_circuits} are flown",
    )
