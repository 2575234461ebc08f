"""Colours, widths and type of everything drawn: layer styles and sheets share them.

Colours: Okabe and Ito, "Color Universal Design" (a set that colour-blind people tell apart), and greys. Widths in
millimetres, type in points. Nothing depends on colour alone: line style, weight or a letter says the same.
"""

from __future__ import annotations

BLACK = "#000000"
ORANGE = "#E69F00"
SKY = "#56B4E9"
GREEN = "#009E73"
YELLOW = "#F0E442"
BLUE = "#0072B2"
VERMILION = "#D55E00"
PURPLE = "#CC79A7"
GREY = "#6E6E6E"
PALE = "#B4B4B4"
WHITE = "#FFFFFF"

DARK = {
    BLACK: "#F2F2F2",
    "#232323": "#F2F2F2",
    WHITE: "#1E1E1E",
    GREY: "#B4B4B4",
    PALE: "#6E6E6E",
    BLUE: SKY,
}
"""Inks on a dark map; those that are not here serve on both. #232323 is what QGIS draws in where nothing is said."""

PATTERN_MM = 0.7
FLOWN_MM = 0.6
DEFINING_MM = 0.25
RULE_MM = 0.25
AREA_MM = 0.3
BUFFER_MM = 0.15
FAILING_MM = 0.9
HATCH_MM, HATCH_LINE_MM = 4.0, 0.2
SYMBOL_MM = 4.6
HALO_MM = 0.8

FAMILIES = ("DejaVu Sans", "Noto Sans", "Open Sans", "Arial", "Helvetica")
"""The first that a machine has is used."""
NAME_PT, FIGURE_PT, TEXT_PT, NOTE_PT = 16.0, 11.0, 9.0, 7.0

SYMBOLS = {
    "VOR": "vor",
    "VOR/DME": "vor_dme",
    "VORTAC": "vortac",
    "TACAN": "tacan",
    "DME": "dme",
    "NDB": "ndb",
    "NDB/DME": "ndb_dme",
    "WPT": "wpt",
}
"""SVG file of a kind of navaid in plugin/symbols."""
