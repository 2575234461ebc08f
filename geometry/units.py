"""Units of length and speed, each defined exactly.

Source: Bureau International des Poids et Mesures, The International System of Units (the nautical mile,
1852 m, and the knot); international yard and pound agreement of 1959 (the foot, 0.3048 m).
"""

from __future__ import annotations

NM_M = 1852.0
FT_M = 0.3048
FT_PER_NM = NM_M / FT_M
KT_MS = NM_M / 3600.0
G_MS2 = 9.80665
"""Standard acceleration of gravity, ICAO Doc 7488."""
