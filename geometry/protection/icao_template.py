"""The ICAO holding template as discs: places without wind, widened by the wind since the fix; its hull the outline."""

from __future__ import annotations

import numpy as np

from ..angles import cosd, sind
from . import shapes

POINT_FIX = np.zeros((1, 2))


def check_step(step_deg: float) -> None:
    """ValueError for a step that does not divide 45 degrees, between tabulated points."""
    if not step_deg > 0.0 or abs(45.0 / step_deg - round(45.0 / step_deg)) > 1e-9:
        raise ValueError(f"step_deg is {step_deg}; it must divide 45")


def legs_end(values: dict[str, np.ndarray]) -> dict[str, tuple[np.ndarray, np.ndarray, np.ndarray]]:
    """Ends of the outbound leg, i1 to i4: centre u, s and wind radius. Parameters: values, the lines of N templates."""
    out = {}
    for name, run, way in (("i1", "gi1", 1.0), ("i2", "gi2", 1.0), ("i3", "gi1", -1.0), ("i4", "gi2", -1.0)):
        wind = values["Wi1" if run == "gi1" else "Wi2"]
        g = values[run]
        out[name] = (values["ac"] - g * cosd(5.0), 2.0 * values["r"] + way * g * sind(5.0), wind)
    return out


def first_turn(values: dict[str, np.ndarray], to_deg: float = 180.0, step_deg: float = 1.0) -> shapes.Turn:
    """The turn at the fix begun as late as may be, from c; with the drift a degree that all turns share."""
    return shapes.Turn(
        values["ac"], np.zeros_like(values["ac"]), 0.0, 1, values["r"], values["Wc"], values["E45"] / 45.0,
        0.0, to_deg, step_deg,
    )  # fmt: skip


def early_turn(values: dict[str, np.ndarray], to_deg: float = 270.0, step_deg: float = 1.0) -> shapes.Turn:
    """The turn at the fix begun as early as may be, from b, from 180 degrees (h) on to p."""
    return first_turn({**values, "ac": values["ab"], "Wc": values["Wb"]}, to_deg, step_deg)._replace(from_deg=180.0)


def inbound_turns(values: dict[str, np.ndarray], step_deg: float = 1.0) -> tuple[shapes.Turn, shapes.Turn]:
    """The turn inbound: from i2 to k, and from l to n4 of that begun at i4."""
    ends, e = legs_end(values), values["E45"] / 45.0
    (u2, s2, w2), (u4, s4, w4) = ends["i2"], ends["i4"]
    return (
        shapes.Turn(u2, s2, 180.0, 1, values["r"], w2, e, 0.0, 90.0, step_deg),
        shapes.Turn(u4, s4, 180.0, 1, values["r"], w4, e, 90.0, 180.0, step_deg),
    )


def discs(values: dict[str, np.ndarray], step_deg: float = 1.0) -> tuple[np.ndarray, np.ndarray]:
    """Discs whose hull is the template: centres in the frame and radii.

    The turns are sampled every step; between the tabulated points the wind radius grows evenly with the angle
    turned. A step of 45 degrees gives the tabulated discs alone.
    Parameters: values, the lines of N templates (shape (N,) or ()); step_deg, a divisor of 45.
    Returns: centres (..., K, 2), radii (..., K), NM. Errors: ValueError for a step that does not divide 45.
    Source: Doc 8168 Vol II, Part I, Section 4, Chapter 3, Appendix C (drawing from memory; places derived).
    """
    check_step(step_deg)
    shape = np.shape(values["V"])
    flat = {name: np.asarray(value, dtype=np.float64).reshape(-1) for name, value in values.items()}
    ends = legs_end(flat)
    n3 = (ends["i3"][0], ends["i3"][1] - 2.0 * flat["r"], flat["Wn3"])
    turns = (first_turn(flat, 180.0, step_deg), *inbound_turns(flat, step_deg))
    columns = [turn.places() for turn in turns] + [tuple(a[:, None] for a in e) for e in (ends["i1"], n3)]
    u, s, w = (np.concatenate(parts, axis=1) for parts in zip(*columns))
    return np.stack([u, s], axis=-1).reshape(*shape, -1, 2), w.reshape(*shape, -1)


def inbound_part(values: dict[str, np.ndarray], step_deg: float = 1.0) -> shapes.Reach:
    """Of the template, the turn inbound, and the end of the outbound leg towards the axis; with the ends of all turns
    inbound (n1 and n2 too, which the turn at the fix covers in the template). Parameters as template."""
    ends = legs_end(values)
    lone = [ends["i3"], ends["i4"]]
    for name, wind in (("i1", "Wn3"), ("i2", "Wn4"), ("i3", "Wn3")):
        lone.append((ends[name][0], ends[name][1] - 2.0 * values["r"], values[wind]))
    u, s, w = (np.stack(parts, axis=1) for parts in zip(*lone))
    turns = inbound_turns(values, step_deg)
    return shapes.Hull(shapes.Discs(u, s, w), *[shapes.turning(turn, len(values["V"])) for turn in turns])


def template(values: dict[str, np.ndarray], step_deg: float = 1.0) -> shapes.Reach:
    """The hull of discs() in closed form. Parameters: values, the lines of N templates (N,); step_deg."""
    check_step(step_deg)
    count = len(values["V"])
    ends = legs_end(values)
    lone = [ends["i1"], (ends["i3"][0], ends["i3"][1] - 2.0 * values["r"], values["Wn3"])]
    u, s, w = (np.stack(parts, axis=1) for parts in zip(*lone))
    turns = [first_turn(values, 180.0, step_deg), *inbound_turns(values, step_deg)]
    return shapes.Hull(shapes.Discs(u, s, w), *[shapes.turning(turn, count) for turn in turns])
