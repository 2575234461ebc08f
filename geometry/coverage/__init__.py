"""Can a fix be received? Service volumes, line of sight, terrain, the cone overhead, cut angles, and what else
could define the fix.

A pair is a fix and a station that defines it. Nothing here promises reception: volumes do not allow for
terrain, terrain data do not know masts and trees, and a station may be restricted by notice.
"""
