"""The layers Fixwright writes: one table from which fields, help, styles and metadata are made."""

from __future__ import annotations

from dataclasses import dataclass

from qgis.core import Qgis, QgsField, QgsFields, QgsProcessing, QgsWkbTypes
from qgis.PyQt.QtCore import QVariant

DOUBLE, INT, TEXT = "double", "int", "text"
POINT, LINE, LINE_M, POLYGON, TABLE = "point", "line", "line with a measure", "polygon", "table"

_WKB = {
    POINT: QgsWkbTypes.Type.Point,
    LINE: QgsWkbTypes.Type.MultiLineString,
    LINE_M: QgsWkbTypes.Type.MultiLineStringM,
    POLYGON: QgsWkbTypes.Type.MultiPolygon,
    TABLE: QgsWkbTypes.Type.NoGeometry,
}
_SOURCE = {
    POINT: QgsProcessing.SourceType.TypeVectorPoint,
    LINE: QgsProcessing.SourceType.TypeVectorLine,
    LINE_M: QgsProcessing.SourceType.TypeVectorLine,
    POLYGON: QgsProcessing.SourceType.TypeVectorPolygon,
    TABLE: QgsProcessing.SourceType.TypeVector,
}


@dataclass(frozen=True)
class Column:
    """A field: name, type and what it means."""

    name: str
    kind: str
    meaning: str


@dataclass(frozen=True)
class LayerSchema:
    """A layer: what it holds, geometry, fields in order, and whether the input's own fields follow them."""

    name: str
    title: str
    geometry: str
    columns: tuple[Column, ...]
    takes_foreign: bool = False

    @property
    def wkb_type(self) -> QgsWkbTypes.Type:
        """QGIS's geometry type."""
        return _WKB[self.geometry]

    @property
    def source_type(self) -> QgsProcessing.SourceType:
        """QGIS's kind of source, as a sink parameter wants it."""
        return _SOURCE[self.geometry]

    @property
    def names(self) -> tuple[str, ...]:
        """Field names in order."""
        return tuple(column.name for column in self.columns)

    @property
    def style(self) -> str:
        """Name of the QML file in plugin/styles without its ending; '' for a table, which shows nothing."""
        return "" if self.geometry == TABLE else self.name


def _columns(rows: str) -> tuple[Column, ...]:
    """Columns from lines of 'name type meaning'."""
    return tuple(Column(*line.split(None, 2)) for line in rows.strip().splitlines())


_STATION = """
method text how the fix is defined: radial_distance, along_track, crossing, route, coordinates or overhead
navaid text ident of the navaid or point that defines the fix
navaid_kind text its kind: VOR, VOR/DME, VORTAC, TACAN, DME, NDB, NDB/DME, WPT, LOC or LOC/DME
navaid_lat double its latitude, degrees north
navaid_lon double its longitude, degrees east
navaid_elev_ft double its elevation, feet above sea level
navaid_decl_deg double its declination (how its north is aligned), degrees east of true
radial_deg double radial, from the station's own north; of an NDB the bearing read at the fix
dist_nm double distance from it along the ground, NM
dme_nm double slant range from it at alt_ft, NM
"""

_SECOND = """
navaid_2 text ident of a second navaid, for a crossing
navaid_2_kind text its kind
navaid_2_lat double its latitude, degrees north
navaid_2_lon double its longitude, degrees east
navaid_2_elev_ft double its elevation, feet above sea level
navaid_2_decl_deg double its declination, degrees east of true
radial_2_deg double radial of the second navaid
dist_2_nm double distance from the second navaid along the ground, NM
dme_2_nm double slant range from the second navaid, NM
cut_deg double angle at which the two lines of a crossing meet
line text what of the first navaid makes a crossing: radial or distance
line_2 text what of the second navaid makes it
"""

_FIXES = f"""
fix text key of the fix: unique and readable; a repeated name gets a number
{_STATION.strip()}
{_SECOND.strip()}
course_true_deg double course at the fix from true north: the direction of travel along a track, else towards the navaid
course_model_deg double the same course from the magnetic model's north at the fix
course_station_deg double the same course as a course selector shows it
var_deg double variation of the magnetic model at the fix, degrees east
var_date text date of that variation
alt_ft double altitude for which slant ranges hold, feet
lat double latitude of the fix, degrees north
lon double longitude of the fix, degrees east
position text the position in degrees and minutes
limits text limits that are broken, each with its paragraph
assumed text what was assumed for values not given
"""

_HOLDS = f"""
hold text key of the hold: unique and readable; later layers join on it
fix text key of the fix it lies at
rules text icao (ICAO Doc 8168) or faa (FAA AIM 5-3-8)
inbound_true_deg double inbound course at the fix from true north
turn text right or left
leg_kind text time or distance
leg_min double minutes on the leg that the rules time: outbound by icao, inbound by faa
leg_nm double length of a distance leg, NM
leg_end text what ends a distance leg: dme (slant reading), along_track or inbound_length
ias_kt double indicated airspeed flown, kt
area_ias_kt double fastest indicated airspeed that may use the hold, kt: protected areas are made for it
alt_ft double lowest altitude, feet
alt_to_ft double highest altitude, feet
isa_dev_c double temperature, degrees Celsius off the standard atmosphere
qnh_hpa double altimeter setting, hPa: the true airspeed is that of the pressure altitude
inbound_model_deg double inbound course from the magnetic model's north at the fix
inbound_station_deg double inbound course as a course selector shows it
outbound_model_deg double outbound course from the magnetic model's north
tas_kt double true airspeed, kt
bank_deg double bank in the turns, degrees
rate_dps double rate of turn, degrees a second
radius_nm double radius of turn in still air, NM
width_nm double width of the pattern, NM
length_nm double length of the pattern from end to end, NM
circuit_s double time of one circuit in still air, seconds
outbound_end_dme_nm double slant range that shows at the outbound end, NM
lat double latitude of the fix, degrees north
lon double longitude of the fix, degrees east
var_deg double variation of the magnetic model at the fix, degrees east
var_date text date of that variation
{_STATION.strip()}
{_SECOND.strip()}
failed text tests that do not hold, where a whole area was built and tested; else empty
limits text limits that are broken, each with its paragraph
assumed text what was assumed for values not given
"""

_FAILING = """
hold text key of the hold
failed int how many of its tests do not hold
tests text which tests they are
text text what they say, in sentences
"""

_PATTERNS = """
hold text key of the hold
fix text key of the fix it lies at
rules text icao or faa
turn text right or left
inbound_model_deg double inbound course from the magnetic model's north
outbound_model_deg double outbound course from the magnetic model's north
leg_kind text time or distance
leg_min double minutes on the timed leg
leg_nm double length of a distance leg, NM
ias_kt double indicated airspeed flown, kt
alt_ft double lowest altitude, feet
alt_to_ft double highest altitude, feet
"""

_TRACKS = """
hold text key of the hold
leg text turn_out, outbound, turn_in or inbound
length_nm double length of the leg in still air, NM
time_s double time on it in still air, seconds
course_true_deg double course from true north; empty in the turns
course_model_deg double course from the magnetic model's north; empty in the turns
"""

_SECTORS = """
hold text key of the hold
entry text direct, teardrop or parallel: the entry for a heading within the sector
from_deg double the sector's first heading at the fix, clockwise, from the magnetic model's north
to_deg double its last heading
"""

_ENTRIES = """
hold text key of the hold
arrival_course_deg double course of the arrival at the fix, from the magnetic model's north
arrival_heading_deg double heading at the fix in the wind, from the same north
entry text direct, teardrop or parallel, by the heading at the fix
also text the other entry that may be flown, where the heading lies within 5 degrees of the boundary
entry_by_course text the entry that the course alone would give
outbound_heading_deg double heading on the first leg of the entry, from the magnetic model's north
inbound_heading_deg double heading on the inbound course
time_s double time on the first leg, seconds; of a direct entry what the stopwatch shows at its end
distance_nm double distance that ends the first leg, where no time does, NM
text text what to fly, in sentences
arrival text the line the aeroplane arrives on, or course
wind_from_true_deg double where the wind comes from, degrees true
wind_kt double speed of the wind, kt
"""

_FLOWN = """
hold text key of the hold
circuit int number of the circuit; 0 for the arrival and the entry
entry text direct, teardrop or parallel, beside circuit 0; empty where no arrival was given
start_s double start of the line, seconds from the first crossing of the fix; the shape's M runs on from it
end_s double end of the line, seconds from the first crossing
start_utc text UTC of the start, such as 2026-09-01T14:05:20
end_utc text UTC of the end
outbound_heading_deg double heading on the outbound leg, from the magnetic model's north
stopwatch_s double what the stopwatch shows at the end of the outbound leg, seconds; empty for a distance leg
outbound_s double seconds straight outbound, from the end of the turn
inbound_heading_deg double heading to the fix on the inbound course, from the magnetic model's north
inbound_s double seconds straight to the fix
wind_from_true_deg double where the wind comes from, degrees true
wind_kt double speed of the wind, kt
text text what to know of the flight, beside circuit 0; what is changed, beside a circuit that is
"""

_BY_RULE = """
hold text key of the hold
rule text single, double or triple: how many times the inbound correction for drift is held outbound
timing text exact: the outbound leg ends as the hold's rules end it; adjusted: by the handbook's rule for the next one
outbound_heading_deg double heading outbound by the rule, from the magnetic model's north
outbound_s double seconds straight outbound, from the end of the turn; the shape's M counts from the fix
off_course_nm double where the turn inbound rolls out, NM right of the inbound course as flown; negative to the left
before_fix_nm double how far before the fix that is, along the course, NM; negative past it
from_fix_nm double how far from the fix in a straight line, NM
inbound_s double where the inbound leg is timed, seconds on it: after the adjusted leg, else after one of that time
next_outbound_s double the outbound leg after that on the stopwatch, by the handbook's adjustment, seconds
text text what the rule gives, in sentences
"""

_EVENTS = """
hold text key of the hold
circuit int number of the circuit; 0 for the arrival and the entry
event text arrival, slow_down, fix, turn_start, turn_end, abeam, stopwatch, outbound_end or on_course
time_s double seconds from the first crossing of the fix
utc text UTC of it, such as 2026-09-01T14:05:20
heading_model_deg double heading, from the magnetic model's north
track_model_deg double track over the ground, from the same north
gs_kt double ground speed, kt
drift_deg double drift, track less heading: positive to the right
text text what happens, in a sentence; headings from the magnetic model's north
"""

_AREAS = """
hold text key of the hold
construction text how the area is made: template, rectangle, outline or envelope
part text basic, entry, buffer_1 to buffer_5, primary or secondary
moc_ft double minimum obstacle clearance in this part, feet
alt_ft double highest altitude it protects, feet
tas_kt double true airspeed it is made for, kt
wind_kt double wind it is made for, from any direction, kt
area_nm2 double its size, square NM
levels text the level it protects, feet; of the union of several levels all of them
limits text what the construction leaves open, and limits that are broken
"""

_CONSTRUCTION_LINES = """
hold text key of the hold
construction text how the area is made: template, rectangle, outline or envelope
alt_ft double level it is drawn for, feet
kind text what is drawn: point (a small cross), arc, tangent, outline or line
letter text its letter, as in the document's drawing
radius_nm double radius of an arc, NM
text text what it is, in words
"""

_LINE_VALUES = """
hold text key of the hold
construction text how the area is made: template, rectangle, outline or envelope
alt_ft double level it is computed for, feet
number text number of the line on the construction's sheet
name text its name or letter
formula text how it is computed
value double its value
unit text its unit
source text document and paragraph
mark text how sure we are of it: published, from memory, derived or as entered
"""

_REJECTS = """
source_id text feature id of the input row
reason text why the row gave no output, in a sentence
"""

_LINES = """
fix text key of the fix that the line defines
navaid text ident of the navaid it belongs to
line text radial or distance
radial_deg double the radial as given, degrees
distance_nm double the distance as given, NM
"""

_TOLERANCES = """
fix text key of the fix
rules text whose accuracies: icao or faa
aids text what defines the fix: radial_arc, radial_radial, arc_arc, overhead or gnss
along_ahead_nm double how far the area reaches ahead of the fix along the inbound course, NM
along_behind_nm double how far it reaches behind the fix, NM
across_left_nm double how far it reaches to the left of the inbound course, NM
across_right_nm double how far it reaches to the right, NM
angle_1_deg double tolerance of the first line's angle, degrees
angle_2_deg double tolerance of the second line's angle, degrees
range_1_nm double tolerance of the first line's DME distance, NM
range_2_nm double tolerance of the second line's DME distance, NM
area_nm2 double size of the area, square NM
limits text what is from memory, and limits that are broken
"""

_TESTS = """
hold text key of the hold, or of the fix where fixes were tested
test text what was tested
ok int 1 where it holds, 0 where it does not, empty where it could not be tested
value double what was found
limit_value double what is allowed
unit text unit of both
source text document and paragraph, and how sure we are of it
text text the result in a sentence
"""

_AIRSPACE_CONTACTS = """
hold text key of the hold
what text what of the hold comes near: area or track
airspace text name of the airspace
kind text its kind or class
ok int 1 where the levels flown keep far enough away, 0 where they do not, empty where that cannot be told
relation text inside, overlaps or near, seen from above
distance_nm double how far it is away sideways, NM; 0 where it overlaps
edge_nm double distance of the nearest edge, line or point, NM; empty where it is out of sight
overlap_nm2 double area that both share, square NM; empty where this QGIS has no shapely
distance_ft double how far the levels flown stay from it, feet; 0 where a level is shared, empty where not known
lower text its lower limit as written
upper text its upper limit as written
lower_ft double altitude of the lower limit there, feet; empty for the ground, and where not known
upper_ft double altitude of the upper limit there, feet; empty for no limit, and where not known
hours text its hours
contact text whom to call
lat double latitude of its nearest place, degrees north
lon double longitude of its nearest place, degrees east
note text how its limits were understood, and what was repaired
text text the contact in a sentence
"""

_PAIRS = """
hold text key of an exercise
hold_2 text key of another, whose area overlaps or comes near
ok int 1 where their levels separate them, 0 where they do not, empty where that cannot be told
relation text overlaps, inside (the first within the second) or near, seen from above
distance_nm double how far apart their areas are, NM; 0 where they overlap
overlap_nm2 double area that both share, square NM; empty where this QGIS has no shapely
alt_ft double lowest altitude of the first, feet
alt_to_ft double highest altitude of the first, feet
alt_2_ft double lowest altitude of the second, feet
alt_to_2_ft double highest altitude of the second, feet
distance_ft double between their levels, feet; below 0 by how much they overlap
free_ft double lowest altitude, from its own up, at which the first is clear of the second, feet
free_2_ft double lowest altitude, from its own up, at which the second is clear of the first, feet
text text the pair in a sentence
"""

_LEVELS = """
hold text key of the exercise
fix text key of its fix
from_ft double lowest altitude that cannot be used, feet; empty from the ground up
to_ft double first altitude above it that is free of this, feet; empty where there is none
cause text minimum_altitude, airspace or exercise
who text name of the airspace or key of the exercise
lowest_ft double lowest altitude that the exercise can use, feet
text text the reason in a sentence
"""

_CONTROLLING = """
hold text key of the hold
construction text how its area is made: template, rectangle, outline or envelope
what text terrain or obstacle
name text name of the obstacle
controls int 1 for what decides the minimum altitude of the area; 0 for the other of terrain and obstacle
lat double latitude, degrees north: of the middle of the raster cell, or of the obstacle's nearest corner
lon double longitude, degrees east
elev_ft double its top, feet above sea level
accuracy_ft double vertical accuracy that is added, feet
allowance_ft double allowance for vegetation that is added, feet
moc_ft double minimum obstacle clearance there, feet
distance_nm double distance of its nearest point from the holding area, NM; 0 inside
part text the part or ring of that distance
required_ft double altitude that it asks for: top, accuracy, allowance and clearance together, feet
minimum_ft double that altitude rounded up, feet
alt_ft double lowest altitude planned, feet; empty where not known
margin_ft double how far that lies above minimum_ft, feet; negative below
source text document and paragraph of the clearance
text text the sum in words
"""

_ALTERNATIVES = """
fix text key of the fix
rank int 1 for the most accurate
method text radial_distance or crossing
navaid text ident of the navaid that gives the track
navaid_2 text ident of the crossing navaid
radial_deg double radial of the first navaid
dist_nm double distance from it along the ground, NM
dme_nm double slant range from it, NM
radial_2_deg double radial of the second navaid
dist_2_nm double distance from it along the ground, NM
cut_deg double angle at which the lines meet
error_nm double position error that the aids' accuracies give, NM
text text the way in a sentence
"""

_SLIPS = """
fix text key of the fix
slip text what went wrong, as a key
distance_nm double how far from the fix one lands, NM
text text what went wrong, in a sentence
source text where the slip comes from
"""

_FINDINGS = """
navaid text ident of the navaid
kind text its kind
finding text what was found, as a key
severity text high, medium or low
value double how much
unit text unit of it
text text the finding in a sentence
source text document or practice behind it
"""

_NAVAIDS = """
ident text ident
name text name
kind text VOR, VOR/DME, VORTAC, TACAN, DME, NDB, NDB/DME, WPT, LOC or LOC/DME
freq text frequency as spoken, MHz, or kHz for an NDB
channel text channel of the DME or TACAN
elev_ft double elevation, feet above sea level
decl_deg double declination of the station, degrees east of true
class text class of the service volume
status text status as given; empty counts as in service
lat double latitude, degrees north
lon double longitude, degrees east
dme_lat double latitude of the DME where it stands apart
dme_lon double longitude of the DME where it stands apart
dme_elev_ft double elevation of the DME where it stands apart, feet
country text country as given
id text key of the row: the source's own, or ident and kind
limits text what is doubtful about the row
"""

_RENAMES = """
what text what got the name: fix, arrival, outbound, outbound end, inbound, route, pattern or area
name text the name as it was
written text the name as it stands in the file
text text why it is another
"""

_CLEARANCES = """
exercise text number of the clearance; the layer is a plan that Build training area takes
clearance text the clearance in words
spoken text the same as it is read aloud, digit by digit
"""

_ANSWERS = """
exercise text number of the clearance
right int 1 where the clearance can be flown, 0 where it is wrong
fault text what was made wrong: direction, time, line or dme; empty for a right one
answer text the hold, or why the clearance is refused, in a sentence
fix text the fix
turn text right or left
inbound_station_deg double inbound course as a course selector shows it
inbound_model_deg double inbound course from the magnetic model's north
outbound_model_deg double outbound course from the magnetic model's north
leg_min double minutes on the leg that the rules time
leg_nm double length of a distance leg, NM
outbound_end_dme_nm double slant range that shows at the outbound end, NM
alt_ft double altitude, feet
efc text time to expect further clearance, UTC
position text position of the fix in degrees and minutes
lat double latitude of the fix, degrees north
lon double longitude of the fix, degrees east
"""

_PLAN = """
exercise text key of the exercise
fix_method text how the fix is defined: radial_distance
navaid text ident of the navaid
navaid_kind text its kind
navaid_id text its id, where ident and kind do not tell it apart
radial_deg double radial, whole degrees from the station's own north; of an NDB the bearing read at the fix
distance_nm double distance, NM
distance_kind text slant for a DME reading, ground along the ground
north text whose north the angles are from: station
inbound_deg double inbound course, degrees from the same north
turn text right or left
leg_min double minutes on the leg that the rules time
ias_kt double indicated airspeed flown, kt
area_ias_kt double fastest indicated airspeed that may use the hold, kt; empty for the most that the rules allow
alt_ft double lowest altitude, feet
alt_to_ft double highest altitude, feet; empty for one level
rules text icao or faa
rank int 1 for the one with the most to spare
score double the mean of what its margins count, 0 to 100
margin_terrain_ft double how far the lowest altitude lies above the minimum, feet; empty where not tested
margin_airspace_nm double how far airspace is beyond the distance allowed, NM, 10 for more; empty where not tested
reception double the least part of a test of reception that is to spare, 0 to 1
worst_slip_nm double how far off the worst slip puts the fix, NM
home_nm double distance of the fix from home, NM
position text the fix in degrees and minutes
text text the proposal in a sentence
"""

_SEARCH_COUNTS = """
test text the test that they fail, or what became of them: near_a_better_one, not_needed, stopped or chosen
candidates int how many places, each side counted
text text what that means
"""

LAYERS = {
    schema.name: schema
    for schema in (
        LayerSchema("fixes", "Fixes", POINT, _columns(_FIXES), takes_foreign=True),
        LayerSchema("holds", "Holds", POINT, _columns(_HOLDS), takes_foreign=True),
        LayerSchema("failing", "Holds that fail a test", POLYGON, _columns(_FAILING)),
        LayerSchema("patterns", "Holding patterns", POLYGON, _columns(_PATTERNS)),
        LayerSchema("tracks", "Legs of the patterns", LINE, _columns(_TRACKS)),
        LayerSchema("sectors", "Entry sectors", POLYGON, _columns(_SECTORS)),
        LayerSchema("entries", "Entries", TABLE, _columns(_ENTRIES)),
        LayerSchema("flown", "Flown tracks", LINE_M, _columns(_FLOWN)),
        LayerSchema("events", "Events of flown tracks", POINT, _columns(_EVENTS)),
        LayerSchema("by_rule", "Circuits by rules of thumb", LINE_M, _columns(_BY_RULE)),
        LayerSchema("areas", "Protected areas", POLYGON, _columns(_AREAS)),
        LayerSchema("construction_lines", "Construction of the areas", LINE, _columns(_CONSTRUCTION_LINES)),
        LayerSchema("line_values", "Values of the construction", TABLE, _columns(_LINE_VALUES)),
        LayerSchema("lines", "Lines of position", LINE, _columns(_LINES)),
        LayerSchema("tolerances", "Fix tolerance areas", POLYGON, _columns(_TOLERANCES)),
        LayerSchema("tests", "Tests", TABLE, _columns(_TESTS)),
        LayerSchema("airspace_contacts", "Airspace near", TABLE, _columns(_AIRSPACE_CONTACTS)),
        LayerSchema("pairs", "Exercises that share the sky", TABLE, _columns(_PAIRS)),
        LayerSchema("levels", "Levels that cannot be used", TABLE, _columns(_LEVELS)),
        LayerSchema("controlling", "Controlling terrain and obstacles", POINT, _columns(_CONTROLLING)),
        LayerSchema("alternatives", "Other ways to define the fixes", TABLE, _columns(_ALTERNATIVES)),
        LayerSchema("slips", "Slips", TABLE, _columns(_SLIPS)),
        LayerSchema("renames", "Names that were changed", TABLE, _columns(_RENAMES)),
        LayerSchema("findings", "Findings about navaids", POINT, _columns(_FINDINGS)),
        LayerSchema("navaids", "Navaids", POINT, _columns(_NAVAIDS)),
        LayerSchema("clearances", "Clearances to practise on", TABLE, _columns(_CLEARANCES)),
        LayerSchema("answers", "Answers", TABLE, _columns(_ANSWERS)),
        LayerSchema("plan", "Plan", TABLE, _columns(_PLAN)),
        LayerSchema("search_counts", "What became of the places looked at", TABLE, _columns(_SEARCH_COUNTS)),
        LayerSchema("rejects", "Rejected rows", TABLE, _columns(_REJECTS), takes_foreign=True),
    )
}
"""Every layer that exists, by name. Field names are fixed: models, styles and later steps read them."""


def new_field(name: str, kind: str) -> QgsField:
    """A QGIS field; the type constants moved in QGIS 3.38."""
    if Qgis.QGIS_VERSION_INT >= 33800:
        from qgis.PyQt.QtCore import QMetaType

        types = {DOUBLE: QMetaType.Type.Double, INT: QMetaType.Type.Int, TEXT: QMetaType.Type.QString}
    else:
        types = {DOUBLE: QVariant.Type.Double, INT: QVariant.Type.Int, TEXT: QVariant.Type.String}
    return QgsField(name, types[kind])


def fields_of(schema: LayerSchema, foreign: QgsFields | None = None) -> tuple[QgsFields, list[int]]:
    """The fields of a layer with the input's own after ours.

    Ours win, compared without case; of two foreign ones that differ in case only the second gets a number; none
    called fid passes, since GeoPackage takes it for its key. Returns: fields, and which foreign fields follow.
    """
    fields = QgsFields()
    for column in schema.columns:
        fields.append(new_field(column.name, column.kind))
    ours = {name.lower() for name in schema.names} | {"fid"}
    passed: list[int] = []
    if foreign is None or not schema.takes_foreign:
        return fields, passed
    wanted = [i for i, field in enumerate(foreign) if field.name().lower() not in ours]
    taken = ours | {foreign[i].name().lower() for i in wanted}
    seen: set[str] = set()
    for i in wanted:
        field = QgsField(foreign[i])
        name, number = field.name(), 1
        if name.lower() in seen:
            while f"{name}_{number}".lower() in taken or number == 1:
                number += 1
            name = f"{name}_{number}"
            taken.add(name.lower())
        seen.add(name.lower())
        field.setName(name)
        fields.append(field)
        passed.append(i)
    return fields, passed
