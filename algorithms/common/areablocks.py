"""Exercises as tests see them: each hold's area out of the parts that count, and the levels it is flown at."""

from __future__ import annotations

from dataclasses import dataclass, field

from qgis.core import QgsProcessing

from . import paths
from .specs import Choice, Number
from .texts import tr
from .values import field_index

PARTS = ("area", "all")
COUNTED = ("basic", "entry", "primary")
"""Parts of the holding area itself; buffers and secondary areas only keep obstacles away."""


@dataclass
class Blocks:
    """N holds: keys, paths of their areas (an empty list where there is none), levels in feet (NaN where not known),
    qnh_hpa, fix, and unsure, '' or why the area is not the whole one."""

    keys: list = field(default_factory=list)
    paths: list = field(default_factory=list)
    unsure: list = field(default_factory=list)
    low_ft: object = None
    high_ft: object = None
    qnh_hpa: object = None
    fix: list = field(default_factory=list)

    def __len__(self) -> int:
        return len(self.keys)


def declare(algorithm) -> None:
    """Add the areas, the holds and which parts count to an algorithm."""
    algorithm.add_source(
        "AREAS",
        tr("Areas"),
        QgsProcessing.SourceType.TypeVectorPolygon,
        tr("The areas layer of Protected areas: polygons with the fields hold, part and alt_ft."),
    )
    algorithm.add_source(
        "HOLDS",
        tr("Holds"),
        QgsProcessing.SourceType.TypeVectorPoint,
        tr(
            "The holds layer: gives each exercise's block of altitudes, alt_ft to alt_to_ft, and its qnh_hpa. Not "
            "given: the one altitude alt_ft of its areas."
        ),
        optional=True,
    )
    algorithm.add(
        Choice(
            "PARTS", tr("Parts that count"), PARTS,
            tr("area: basic, entry and primary, where aeroplanes may be; all: buffers and secondary areas too."),
            default="area", dynamic=False,
        )
    )  # fmt: skip


def declare_qnh(algorithm) -> None:
    """Add the altimeter setting, where flight levels are to be altitudes."""
    algorithm.add(
        Number(
            "QNH", tr("QNH"), 850, 1100,
            tr("Altimeter setting that turns flight levels into altitudes. Not given: each hold's own, else 1013.25."),
            "hPa", optional=True, dynamic=False,
        )
    )  # fmt: skip


def problem(algorithm, parameters: dict, context) -> str:
    """Why the layers cannot be read, in a sentence; '' where they can."""
    needed = {"AREAS": ("hold", "part", "alt_ft"), "HOLDS": ("hold", "alt_ft", "alt_to_ft")}
    for layer, names in needed.items():
        if layer in parameters:
            fields = algorithm.source_fields(parameters, context, layer)
            missing = [name for name in names if field_index(fields, name) < 0]
            if missing:
                return tr("{} has no field {}; its fields are {}.").format(
                    layer, ", ".join(missing), ", ".join(f.name() for f in fields)
                )
    return ""


def read(run) -> Blocks:
    """All exercises of the areas and of the holds; rows that cannot be used go to the rejects, their holds stay."""
    import numpy as np

    from ...geometry.atmosphere import STANDARD_QNH_HPA

    out, of_areas, at = Blocks(), {}, {}

    def index(key: str) -> int:
        if key not in at:
            at[key] = len(out.keys)
            out.keys.append(key)
            out.paths.append([])
            out.unsure.append("")
            out.fix.append("")
        return at[key]

    _read_areas(run, out, index, of_areas)
    blocks = _read_holds(run, out, index)
    n = len(out)
    out.low_ft, out.high_ft = (np.array([of_areas.get(i, np.nan) for i in range(n)]) for _ in range(2))
    out.qnh_hpa = np.full(n, np.nan)
    for i, (low, high, qnh) in blocks.items():
        if np.isfinite(low):
            out.low_ft[i], out.high_ft[i] = low, (high if np.isfinite(high) else low)
        out.qnh_hpa[i] = qnh
    own = run.constant("QNH") if "QNH" in run.algorithm.specs else None
    out.qnh_hpa = np.where(np.isfinite(out.qnh_hpa), out.qnh_hpa, STANDARD_QNH_HPA)
    if own is not None:
        out.qnh_hpa[:] = own
    for i in range(n):
        if not out.paths[i] and not out.unsure[i]:
            out.unsure[i] = tr("The hold has no area that counts")
    return out


def _read_areas(run, out: Blocks, index, of_areas: dict) -> None:
    source = run.source("AREAS")
    counted = None if run.constant("PARTS") == "all" else COUNTED
    reader = run.reader(source, texts={"hold": "hold", "part": "part"}, numbers={"alt_ft": "alt_ft"}, of="AREAS",
                        shapes=True)  # fmt: skip
    to_paths = paths.ToPaths(source.sourceCrs(), paths.POLYGON, run.context)
    left_out = 0
    for rows in reader:
        for i, feature in enumerate(rows.features):
            key = rows["hold"][i]
            if key and counted and rows["part"][i].lower() not in counted:
                index(key)
                left_out += 1
                continue
            run.rows_in += 1
            reason = rows.reasons[i] or ("" if key else tr("hold is empty; the tests join on it"))
            shape, note, fault = to_paths(feature.geometry())
            if reason or fault:
                run.refuse([f"AREAS {rows.ids[i]}"], [reason or fault])
                if key:
                    out.unsure[index(key)] = tr("An area of the hold cannot be read: {}").format(reason or fault)
                continue
            run.rows_out += 1
            k = index(key)
            out.paths[k] += shape
            if note:
                run.feedback.pushWarning(tr("AREAS {} ({}): {}").format(rows.ids[i], key, note))
            altitude = rows["alt_ft"][i]
            of_areas[k] = max(of_areas.get(k, altitude), altitude)
        if run.feedback.isCanceled():
            return
    if left_out:
        run.feedback.pushInfo(tr("{} areas of other parts do not count").format(left_out))


def _read_holds(run, out: Blocks, index) -> dict:
    """The block and the QNH of each exercise that the holds layer lists."""
    source = run.source("HOLDS")
    blocks: dict = {}
    if source is None:
        run.feedback.pushInfo(tr("HOLDS is not given: each exercise is taken at the one altitude of its areas"))
        return blocks
    names = [name for name in ("alt_ft", "alt_to_ft", "qnh_hpa") if field_index(source.fields(), name) >= 0]
    texts = {"hold": "hold", **({"fix": "fix"} if field_index(source.fields(), "fix") >= 0 else {})}
    for rows in run.reader(source, texts=texts, numbers={name: name for name in names}, of="HOLDS", shapes=True):
        for i in range(len(rows)):
            run.rows_in += 1
            reason = rows.reasons[i] or ("" if rows["hold"][i] else tr("hold is empty; the tests join on it"))
            if reason:
                run.refuse([f"HOLDS {rows.ids[i]}"], [reason])
                if rows["hold"][i]:
                    k = index(rows["hold"][i])
                    out.unsure[k] = tr("The hold's altitudes cannot be read: {}").format(reason)
                continue
            run.rows_out += 1
            k = index(rows["hold"][i])
            if "fix" in texts:
                out.fix[k] = rows["fix"][i]
            low, high, qnh = (
                rows[name][i] if name in names else float("nan") for name in ("alt_ft", "alt_to_ft", "qnh_hpa")
            )
            blocks[k] = (low, max(low, high) if high == high else low, qnh)
    return blocks
