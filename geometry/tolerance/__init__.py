"""Fix tolerance areas: where an aircraft may be that reads its aids within their accuracy.

An area is bounded by four edges: the two limits of one line of position and the two of the other, or four edges
in the frame of the inbound course. Every edge starts from an origin in polar or in frame coordinates, is pushed
outwards by a small margin, and is placed by one geodesic call for all points of all rows.
"""
