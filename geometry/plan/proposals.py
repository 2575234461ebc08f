"""Proposals as rows of a plan, each with its margins and a sentence."""

from __future__ import annotations

import numpy as np

from .. import holds
from ..text import format_course, format_nm
from .candidates import FAR_NM
from .shortlist import Shortlist


def plan_columns(of: Shortlist, chosen: np.ndarray) -> dict[str, np.ndarray]:
    """The proposals as columns of a plan, with rank and margins."""
    wishes, n = of.wishes, len(chosen)
    fix = chosen // max(of.sides, 1)
    navaid = of.where.navaid[fix]
    keys = [of.keys[k] for k in navaid]
    width = max(2, len(str(n)))

    def same(value) -> np.ndarray:
        return np.full(n, value)

    def words(values) -> np.ndarray:
        out = np.empty(n, dtype=object)
        out[:] = list(values)
        return out

    def margin(name: str) -> np.ndarray:
        values = of.margins.get(name)
        values = same(np.nan) if values is None else values[chosen]
        return np.where(np.isfinite(values), values, np.nan)

    columns = {
        "exercise": words(f"F{k + 1:0{width}d}" for k in range(n)),
        "fix_method": words(["radial_distance"] * n),
        "navaid": words(of.directory.ident[navaid]),
        "navaid_kind": words(key[0] for key in keys),
        "navaid_id": words(key[1] for key in keys),
        "radial_deg": of.where.radial_deg[fix],
        "distance_nm": of.where.distance_nm[fix],
        "distance_kind": words("slant" if of.slant[k] else "ground" for k in navaid),
        "north": words(["station"] * n),
        "inbound_deg": of.inbound_deg()[fix],
        "turn": words(holds.TURNS[wishes.sides[c % of.sides]] for c in chosen),
        "leg_min": same(of.leg_min()),
        "ias_kt": same(wishes.ias_kt),
        "area_ias_kt": same(wishes.area_ias_kt),
        "alt_ft": same(wishes.alt_ft),
        "alt_to_ft": same(wishes.alt_to_ft),
        "rules": words([holds.RULES[wishes.rules]] * n),
        "rank": np.arange(1, n + 1),
        "score": of.score_of(chosen) if n else same(np.nan),
        "margin_terrain_ft": margin("terrain"),
        "margin_airspace_nm": margin("airspace"),
        "reception": margin("reception"),
        "worst_slip_nm": margin("slip"),
        "home_nm": margin("home"),
        "position": words(of.fixes.columns["position"][fix]),
    }
    columns["text"] = words(_sentence(of, columns, k, c) for k, c in enumerate(chosen))
    return columns


def _sentence(of: Shortlist, columns: dict, k: int, c: int) -> str:
    fix = c // of.sides
    inbound = format_course(columns["inbound_deg"][k])
    parts = [f"{of.fixes.columns['fix'][fix]}, inbound {inbound}, {columns['turn'][k]} turns"]
    terrain, airspace = columns["margin_terrain_ft"][k], columns["margin_airspace_nm"][k]
    if np.isfinite(terrain):
        parts.append(f"{terrain:.0f} ft above the minimum altitude")
    if np.isfinite(airspace):
        most = f"{FAR_NM:.0f} NM or more" if airspace >= FAR_NM else format_nm(airspace)
        parts.append(f"airspace at its levels {most} beyond the distance allowed")
    parts.append(f"{100 * columns['reception'][k]:.0f} % of the reception to spare")
    slip = columns["worst_slip_nm"][k]
    parts.append(f"the worst slip, {format_nm(slip)} off: {of.worst[fix]}")
    parts.append(f"{format_nm(columns['home_nm'][k])} from home")
    return "; ".join(parts)
