"""The constructions of protected areas by name: another one is another file, and its line here."""

from __future__ import annotations

from . import envelope_areas, icao, outline, rectangle
from .areas import Construction

CONSTRUCTIONS: dict[str, Construction] = {
    module.CONSTRUCTION.name: module.CONSTRUCTION for module in (icao, rectangle, outline, envelope_areas)
}
