"""The overlay lies where it should: by GDAL's reading to a pixel, by its scale on the ground, on clear ground."""

from __future__ import annotations

import subprocess

import numpy as np
import pytest

from fixwright.tests.algorithms.layers import DATE, Feedback, core, layer, refusal, run, some_fixes

gdal = pytest.importorskip("osgeo.gdal", reason="needs GDAL for Python")

SQUARE = (690_000.0, 5_330_000.0, 691_000.0, 5_331_000.0)
"""Corners of a square kilometre in UTM zone 32 north: EPSG:32632, 11.6 degrees east."""
EXTENT = "685000,700000,5325000,5336000 [EPSG:32632]"


def square(crs="EPSG:32632", corners=SQUARE):
    from qgis.core import QgsFillSymbol, QgsSingleSymbolRenderer

    x0, y0, x1, y1 = corners
    made = layer(
        ("name:string",), [(f"POLYGON(({x0} {y0},{x1} {y0},{x1} {y1},{x0} {y1},{x0} {y0}))", "q")], crs, "Polygon"
    )
    symbol = QgsFillSymbol.createSimple({"color": "black", "outline_style": "no"})
    made.setRenderer(QgsSingleSymbolRenderer(symbol))
    return made


def drawn(path):
    """What GDAL reads: the share of ink of each pixel, and the six numbers of the georeferencing."""
    opened = gdal.Open(str(path))
    bands = opened.ReadAsArray().astype(float)
    if bands.shape[0] == 4:
        return bands[3] / 255.0, opened.GetGeoTransform(), opened
    return 1.0 - bands[:3].mean(axis=0) / 255.0, opened.GetGeoTransform(), opened


def box_of_ink(ink, transform, above=0.5):
    """The corners of what is drawn, in the projection; the note in the lowest rows is left out."""
    ink = ink.copy()
    ink[-int(len(ink) * 0.15) :] = 0.0
    rows, columns = np.nonzero(ink > above)
    x0, dx, _, y0, _, dy = transform
    return (x0 + columns.min() * dx, y0 + (rows.max() + 1) * dy, x0 + (columns.max() + 1) * dx, y0 + rows.min() * dy)


@pytest.mark.parametrize(("kind", "dpi"), [("png", 300), ("png", 96), ("pdf", 300)])
def test_a_square_kilometre_lies_where_it_is(kind, dpi, tmp_path):
    """To a pixel: GDAL's georeferencing of the file against the corners that were drawn."""
    out = tmp_path / f"o.{kind}"
    run("chartoverlay", LAYERS=[square()], SCALE=100_000, DPI=dpi, CRS="EPSG:32632", EXTENT=EXTENT, OUTPUT=str(out))
    ink, transform, opened = drawn(out)
    pixel = transform[1]
    assert (transform[2], transform[4]) == pytest.approx((0.0, 0.0), abs=1e-9)
    assert -transform[5] == pytest.approx(pixel, rel=1e-9)
    assert box_of_ink(ink, transform) == pytest.approx(SQUARE, abs=1.01 * pixel)
    reference = opened.GetSpatialRef()
    assert reference.GetUTMZone() == 32


@pytest.mark.parametrize("kind", ["png", "pdf"])
@pytest.mark.parametrize("crs", ["EPSG:3857", "EPSG:32632", None])
def test_the_scale_holds_on_the_ground(crs, kind, tmp_path):
    """A distance on paper times the scale is the geodesic's, to 1 part in 2000, also where the projection stretches.

    The Mercator of EPSG:3857 stretches by 1.5 at this latitude, and being spherical not quite alike to the north and
    to the east (EPSG Guidance Note 7-2, method 1024): to 1 part in 500. Reference: the PyPI package geographiclib.
    """
    from geographiclib.geodesic import Geodesic

    out = tmp_path / f"o.{kind}"
    more = {} if crs is None else {"CRS": crs}
    run("chartoverlay", LAYERS=[square()], SCALE=50_000, DPI=150, OUTPUT=str(out), **more)
    _, transform, opened = drawn(out)
    reference = core.QgsCoordinateReferenceSystem.fromWkt(opened.GetProjection())
    to_wgs84 = core.QgsCoordinateTransform(
        reference, core.QgsCoordinateReferenceSystem("EPSG:4326"), core.QgsCoordinateTransformContext()
    )
    x0, dx, _, y0, _, dy = transform
    middle = x0 + dx * opened.RasterXSize / 2.0, y0 + dy * opened.RasterYSize / 2.0
    pixels = 200
    for along, across in ((1.0, 0.0), (0.0, 1.0)):
        ends = [
            to_wgs84.transform(middle[0] + sign * along * pixels / 2 * dx, middle[1] + sign * across * pixels / 2 * dy)
            for sign in (-1.0, 1.0)
        ]
        ground_m = Geodesic.WGS84.Inverse(ends[0].y(), ends[0].x(), ends[1].y(), ends[1].x())["s12"]
        paper_m = pixels * 0.0254 / 150.0
        assert ground_m / paper_m == pytest.approx(50_000.0, rel=1.0 / (500.0 if crs == "EPSG:3857" else 2000.0))


def test_paper_size_of_a_pdf(tmp_path):
    """The page is as large as its extent at the scale: 15 km at 1:100 000 is 150 mm, widened to a dozen of points."""
    out = tmp_path / "o.pdf"
    run("chartoverlay", LAYERS=[square()], SCALE=100_000, CRS="EPSG:32632", EXTENT=EXTENT, OUTPUT=str(out))
    said = subprocess.run(["pdfinfo", str(out)], capture_output=True, text=True, check=True).stdout
    (line,) = [line for line in said.splitlines() if line.startswith("Page size")]
    wide, high = float(line.split()[2]), float(line.split()[4])
    assert wide % 12 == high % 12 == 0
    assert 150.0 <= wide * 25.4 / 72.0 < 150.0 + 4.3
    assert 110.0 <= high * 25.4 / 72.0 < 110.0 + 4.3


def test_the_ground_is_clear(tmp_path):
    """A PNG has no ground; a PDF has none either: drawn on blue it is blue where nothing is."""
    run("chartoverlay", LAYERS=[square()], SCALE=100_000, DPI=96, OUTPUT=str(tmp_path / "o.png"))
    ink, _, _ = drawn(tmp_path / "o.png")
    assert (ink[:3] == 0.0).all() and (ink[:, :3] == 0.0).all()
    assert (ink > 0.9).any()
    run("chartoverlay", LAYERS=[square()], SCALE=100_000, DPI=96, OUTPUT=str(tmp_path / "o.pdf"))
    command = [
        "pdftocairo",
        "-png",
        "-transp",
        "-r",
        "96",
        "-singlefile",
        str(tmp_path / "o.pdf"),
        str(tmp_path / "page"),
    ]
    subprocess.run(command, check=True, capture_output=True)
    alpha = gdal.Open(str(tmp_path / "page.png")).ReadAsArray()[3]
    assert (alpha[:3] == 0).all() and (alpha > 230).any()


def test_world_file_of_a_png(tmp_path):
    """World file: common practice, its last two lines are the middle of the first pixel; GDAL alone agrees with it."""
    out = tmp_path / "o.png"
    run("chartoverlay", LAYERS=[square()], SCALE=100_000, DPI=96, CRS="EPSG:32632", OUTPUT=str(out))
    assert {path.name for path in tmp_path.iterdir()} == {"o.png", "o.pgw", "o.prj", "o.png.aux.xml"}
    _, by_both, _ = drawn(out)
    step, turn_1, turn_2, down, x, y = map(float, (tmp_path / "o.pgw").read_text().split())
    assert (turn_1, turn_2) == (0.0, 0.0)
    (tmp_path / "o.png.aux.xml").unlink()
    _, by_world_file, _ = drawn(out)
    assert by_world_file == pytest.approx(by_both, rel=1e-9)
    assert (x - step / 2.0, y - down / 2.0) == pytest.approx((by_both[0], by_both[3]), rel=1e-9)
    assert step == pytest.approx(by_both[1], rel=1e-9) and down == pytest.approx(by_both[5], rel=1e-9)


def test_caution_scale_and_title(tmp_path):
    out = tmp_path / "o.pdf"
    run("chartoverlay", LAYERS=[square()], SCALE=250_000, TITLE="Quillandra <Reach>", OUTPUT=str(out))
    words = subprocess.run(["pdftotext", str(out), "-"], capture_output=True, text=True, check=True).stdout
    assert "1 : 250 000" in words and "not for navigation" in words
    said = subprocess.run(["pdfinfo", str(out)], capture_output=True, text=True, check=True).stdout
    assert "Quillandra <Reach>" in said and "not for navigation" in said
    fonts = subprocess.run(["pdffonts", str(out)], capture_output=True, text=True, check=True).stdout
    assert len(fonts.splitlines()) > 2, "text is not text"
    out = tmp_path / "o.png"
    run("chartoverlay", LAYERS=[square()], SCALE=250_000, DPI=96, OUTPUT=str(out))
    assert "not for navigation" in gdal.Open(str(out)).GetMetadata()["CAUTION"]


def test_our_layers_without_a_style_get_ours(tmp_path, empty_project):
    """From a file that holds no style; a layer that the project shows stays as it is shown there."""
    from fixwright.algorithms.chartoverlay import ours, wears_its_own_style

    made = run("designholds", INPUT=some_fixes(), DATE=DATE, PATTERNS=str(tmp_path / "p.geojson"))
    opened = core.QgsVectorLayer(str(tmp_path / "p.geojson"), "p", "ogr")
    assert ours(opened).name == "patterns" and not wears_its_own_style(opened)
    assert ours(made.layer("TRACKS")).name == "tracks"
    assert ours(square()) is None
    made = run("designholds", INPUT=some_fixes(), DATE=DATE, PATTERNS=str(tmp_path / "p.gpkg"))
    assert wears_its_own_style(core.QgsVectorLayer(str(tmp_path / "p.gpkg"), "p", "ogr"))
    out = tmp_path / "o.png"
    one = "QZB R305 14.0 NM"
    opened.setSubsetString(f"hold = '{one}'")
    run("chartoverlay", LAYERS=[opened], SCALE=50_000, DPI=96, OUTPUT=str(out))
    colours = {tuple(c) for c in gdal.Open(str(out)).ReadAsArray()[:, ::3, ::3].reshape(4, -1).T.tolist() if c[3] > 250}
    assert (0x00, 0x72, 0xB2, 255) in colours, "not the blue of our patterns"
    assert opened.renderer().type() == "singleSymbol", "the caller's own layer was changed"


def test_a_file_is_drawn_in_the_style_that_it_holds(tmp_path):
    """As qgis_process and the dialog give it, by its path: Processing opens it without its style."""
    place = str(tmp_path / "h.gpkg")
    run("designholds", INPUT=some_fixes(), DATE=DATE, PATTERNS=place)
    saved = core.QgsVectorLayer(place, "p", "ogr")
    red = core.QgsFillSymbol.createSimple({"color": "255,0,0", "outline_color": "255,0,0", "outline_width": "2"})
    saved.setRenderer(core.QgsSingleSymbolRenderer(red))
    saved.setLabelsEnabled(False)
    saved.saveStyleToDatabase("mine", "", True, "")
    one = next(feature.geometry().boundingBox() for feature in saved.getFeatures())
    box = f"{one.xMinimum()},{one.xMaximum()},{one.yMinimum()},{one.yMaximum()} [EPSG:4326]"
    out = tmp_path / "o.png"
    run("chartoverlay", LAYERS=[place], SCALE=250_000, DPI=96, EXTENT=box, OUTPUT=str(out))
    picture = gdal.Open(str(out)).ReadAsArray()
    seen = picture[:3, picture[3] > 250]
    red_share = ((seen[0] > 200) & (seen[1] < 60) & (seen[2] < 60)).mean()
    assert red_share > 0.5, f"{red_share:.2f} of what is drawn has the colour of the style in the file"


def test_across_180_degrees(tmp_path):
    """Both halves of a shape that is split at the meridian lie side by side."""
    west, east = "(179.9 10,180 10,180 10.1,179.9 10.1,179.9 10)", "(-180 10,-179.9 10,-179.9 10.1,-180 10.1,-180 10)"
    wkt = f"MULTIPOLYGON(({west}),({east}))"
    split = layer(("name:string",), [(wkt, "x")], kind="MultiPolygon")
    out = tmp_path / "o.png"
    run("chartoverlay", LAYERS=[split], SCALE=250_000, DPI=96, OUTPUT=str(out))
    opened = gdal.Open(str(out))
    assert opened.RasterXSize * opened.GetGeoTransform()[1] < 40_000.0


def test_refused(tmp_path):
    out = str(tmp_path / "o.pdf")
    here = {"LAYERS": [square()], "OUTPUT": out}
    nowhere = square()
    nowhere.setCrs(core.QgsCoordinateReferenceSystem())
    for more, said in (
        ({"LAYERS": [nowhere]}, "LAYERS: 'points' has no coordinate reference system; set the layer's own first."),
        ({"CRS": "EPSG:4326"}, "CRS is 'EPSG:4326'; a chart has one scale only in a projection, in metres or feet."),
        ({"SCALE": 500}, "SCALE is 500; it must be a number between 1000 and 10000000."),
        ({"DPI": 5}, "DPI is 5; it must be a number between 72 and 1200 dpi."),
        ({"FORMAT": "png"}, f"OUTPUT is {shortened(out)}, but FORMAT is png; its name must end in .png."),
        ({"OUTPUT": out[:-4]}, f"OUTPUT is {shortened(out[:-4])}, whose ending tells no format; its name must end in "
                               ".pdf or .png."),
    ):  # fmt: skip
        assert refusal("chartoverlay", **{**here, **more}) == said
    assert list(tmp_path.iterdir()) == []


def shortened(path):
    from fixwright.algorithms.common.specs import shown

    return shown(path)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"SCALE": 1000, "DPI": 1200, "EXTENT": EXTENT}, "pixels; the most is 60000000"),
        ({"LAYERS": "empty"}, "hold nothing that can be drawn"),
    ],
)  # fmt: skip
def test_a_run_that_fails_leaves_the_older_file_alone(more, said, tmp_path):
    out = tmp_path / "o.png"
    out.write_text("old")
    asked = {"LAYERS": [square()], "CRS": "EPSG:32632", **more}
    if asked["LAYERS"] == "empty":
        asked["LAYERS"] = [layer(("name:string",), [(None, "x")])]
    with pytest.raises(core.QgsProcessingException, match=said):
        run("chartoverlay", OUTPUT=str(out), **asked)
    assert [path.name for path in tmp_path.iterdir()] == ["o.png"] and out.read_text() == "old"


def test_a_file_that_reads_back_elsewhere_is_not_kept(tmp_path, monkeypatch):
    """The check bites: with corners half a kilometre off nothing is written."""
    from fixwright.algorithms.common import overlay

    honest = overlay.geotransform
    monkeypatch.setattr(overlay, "geotransform", lambda frame: (honest(frame)[0] + 500.0, *honest(frame)[1:]))
    with pytest.raises(core.QgsProcessingException, match="not where they belong"):
        run("chartoverlay", LAYERS=[square()], SCALE=100_000, OUTPUT=str(tmp_path / "o.png"))
    assert list(tmp_path.iterdir()) == []


def test_a_cancel_leaves_nothing(tmp_path):
    feedback = Feedback(cancel_at=0)
    made = run("chartoverlay", feedback, LAYERS=[square()], OUTPUT=str(tmp_path / "o.pdf"))
    assert "OUTPUT" not in made.results and list(tmp_path.iterdir()) == []
