"""Pure geometry of training fixes and holds: arrays in, arrays out, no QGIS.

Units and signs, stated once for every module: NM of 1852 m, feet, knots, seconds, degrees clockwise from
north; east variation and declination positive; places as longitude, latitude on WGS 84. Every name ends in
its unit. A file imports only from the floors below its own (see DEVELOPERS.md).
"""
