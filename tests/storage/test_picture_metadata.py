"""Scale from files: found, ignored, contradicted; and the mark of the synthetic."""

import pytest

from strandproof.errors import (
    NonSquarePixelsError,
    ParameterError,
    ScaleConflictError,
    UnitError,
)
from strandproof.quantity import Quantity
from strandproof.storage.picture_header import PixelSizeStatement, density_statement
from strandproof.storage.picture_metadata import (
    PixelSizeFromFile,
    given_pixel_size,
    ome_statements,
    pixel_size_from_file,
    refuse_contradiction,
    synthetic_mark,
)


def per_inch(density: float, y: float | None = None) -> PixelSizeStatement:
    found = density_statement(
        density, density if y is None else y, unit_um=25_400.0, source="entry"
    )
    assert found is not None
    return found


def physical(x: float, y: float | None = None) -> PixelSizeStatement:
    return PixelSizeStatement(
        x=x, y=x if y is None else y, absolute=True, physical=True, source="OME-XML"
    )


@pytest.mark.parametrize("density", [72, 96, 100, 150, 300, 600, 1000, 1016])
def test_print_settings_are_ignored_with_a_flag(density: float) -> None:
    size, flags = pixel_size_from_file("x", [per_inch(density)])
    assert size is None
    assert [flag.name for flag in flags] == ["resolution_tag_ignored"]
    assert f"{density} pixels per inch" in flags[0].detail


@pytest.mark.parametrize("density", [1200, 2400, 4800, 9600])
def test_scanner_settings_are_ignored_with_a_flag(density: float) -> None:
    size, flags = pixel_size_from_file("x", [per_inch(density)])
    assert size is None
    assert [flag.name for flag in flags] == ["resolution_tag_ignored"]


@pytest.mark.parametrize(
    ("density", "expected"), [(1017, 24.975), (25_400, 1.0), (147_161, 0.1726)]
)
def test_microscope_scales_are_used(density: float, expected: float) -> None:
    size, flags = pixel_size_from_file("x", [per_inch(density)])
    assert size is not None
    assert size.value_um == pytest.approx(expected, rel=1e-4, abs=0)
    assert size.source == "entry"
    assert flags == ()


def test_nothing_stated_is_nothing_found() -> None:
    assert pixel_size_from_file("x", []) == (None, ())


def test_proportion_alone_is_no_scale_and_no_flag() -> None:
    square = density_statement(1, 1, unit_um=None, source="entry")
    assert square is not None
    assert pixel_size_from_file("x", [square]) == (None, ())


def test_physical_size_wins_over_a_density() -> None:
    size, flags = pixel_size_from_file("x", [physical(0.5), per_inch(72)])
    assert size == PixelSizeFromFile(0.5, "OME-XML")
    assert flags == ()
    size, _flags = pixel_size_from_file("x", [physical(40.0), per_inch(25_400)])
    assert size == PixelSizeFromFile(40.0, "OME-XML")


def test_two_densities_that_disagree_are_both_ignored() -> None:
    size, flags = pixel_size_from_file("x", [per_inch(25_400), per_inch(30_000)])
    assert size is None
    assert flags[0].detail.startswith("two entries disagree")
    assert "25400" in flags[0].detail
    assert "30000" in flags[0].detail
    size, flags = pixel_size_from_file("x", [per_inch(25_400), per_inch(25_500)])
    assert size == PixelSizeFromFile(1.0, "entry")
    assert flags == ()


@pytest.mark.parametrize("ratio", [0.5, 0.9985, 1.0015, 2.0])
def test_oblong_pixels_are_refused_with_both_numbers(ratio: float) -> None:
    statement = physical(0.4, 0.4 * ratio)
    with pytest.raises(
        NonSquarePixelsError, match=rf"0\.4 across and {0.4 * ratio:.6g} down \(um\)"
    ):
        pixel_size_from_file("x", [statement])


def test_oblong_print_settings_are_refused_too() -> None:
    with pytest.raises(NonSquarePixelsError, match="resample the original"):
        pixel_size_from_file("x", [per_inch(204, 98)])
    proportion = density_statement(2, 1, unit_um=None, source="entry")
    assert proportion is not None
    with pytest.raises(NonSquarePixelsError, match="proportion, no unit"):
        pixel_size_from_file("x", [proportion])


@pytest.mark.parametrize("ratio", [0.9995, 1.0, 1.0005])
def test_pixels_square_within_a_thousandth_pass(ratio: float) -> None:
    size, _flags = pixel_size_from_file("x", [physical(0.4, 0.4 * ratio)])
    assert size == PixelSizeFromFile(0.4, "OME-XML")


@pytest.mark.parametrize(
    ("value", "unit", "expected_um"),
    [
        ("0.1726", None, 0.1726),
        ("0.1726", "\N{MICRO SIGN}m", 0.1726),
        ("0.1726", "\N{GREEK SMALL LETTER MU}m", 0.1726),
        ("172.6", "nm", 0.1726),
        ("0.0001726", "mm", 0.1726),
        ("1726", "\N{LATIN CAPITAL LETTER A WITH RING ABOVE}", 0.1726),
        ("1.726e-7", "m", 0.1726),
    ],
)
def test_ome_units(value: str, unit: str | None, expected_um: float) -> None:
    units = (
        "" if unit is None else f'PhysicalSizeXUnit="{unit}" PhysicalSizeYUnit="{unit}"'
    )
    text = (
        '<?xml version="1.0" encoding="UTF-8"?><OME xmlns="http://www.openmicroscopy'
        '.org/Schemas/OME/2016-06"><Image ID="Image:0"><Pixels ID="Pixels:0" '
        f'PhysicalSizeX="{value}" PhysicalSizeY="{value}" {units}/></Image></OME>'
    )
    statements, notes = ome_statements(text)
    assert notes == ()
    assert len(statements) == 1
    assert statements[0].x == pytest.approx(expected_um, rel=1e-12, abs=0)
    assert statements[0].y == pytest.approx(expected_um, rel=1e-12, abs=0)
    assert statements[0].physical


@pytest.mark.parametrize(
    "attributes",
    [
        "",
        'PhysicalSizeX="0"',
        'PhysicalSizeX="-1"',
        'PhysicalSizeX="nan"',
        'PhysicalSizeX="wide"',
        'PhysicalSizeX="3" PhysicalSizeXUnit="pixel"',
        'PhysicalSizeX="3" PhysicalSizeXUnit="reference frame"',
    ],
)
def test_ome_size_that_means_nothing_is_left_out(attributes: str) -> None:
    statements, _notes = ome_statements(
        f"<OME><Image><Pixels {attributes}/></Image></OME>"
    )
    assert statements == ()


def test_ome_with_two_different_sizes_is_noted() -> None:
    pixels = '<Pixels PhysicalSizeX="1"/><Pixels PhysicalSizeX="2"/>'
    statements, notes = ome_statements(f"<OME>{pixels}</OME>")
    assert statements == ()
    assert "different pixel sizes" in notes[0]


@pytest.mark.parametrize(
    "text",
    [
        "<OME><Image><Pixels PhysicalSizeX='1'",
        "<OME>no pixels</OME>",
        '<!DOCTYPE OME [<!ENTITY a "b">]><OME><Pixels PhysicalSizeX="1"/></OME>',
    ],
)
def test_damaged_ome_is_noted(text: str) -> None:
    statements, notes = ome_statements(text)
    assert statements == ()
    assert "damaged" in notes[0]


def test_plain_description_is_no_ome() -> None:
    assert ome_statements("PhysicalSizeX=1") == ((), ())


def test_given_size_may_be_a_number_or_a_quantity() -> None:
    assert given_pixel_size(0.5) == Quantity(0.5, "um")
    given = Quantity(0.1726, "um", 0.0004, degrees_of_freedom=4)
    assert given_pixel_size(given) is given
    with pytest.raises(UnitError, match="'mm' does not fit"):
        given_pixel_size(Quantity(0.5, "mm"))
    for wrong in (0.0, -0.5):
        with pytest.raises(ParameterError, match="above 0 micrometres"):
            given_pixel_size(wrong)


FOUND = PixelSizeFromFile(0.5, "TIFF resolution entry")


@pytest.mark.parametrize(
    "given",
    [
        Quantity(0.5, "um"),
        Quantity(0.5049, "um"),
        Quantity(0.4951, "um"),
        Quantity(0.5049, "um", 0.0001),
        Quantity(0.52, "um", 0.011),
    ],
)
def test_sizes_that_agree_pass(given: Quantity) -> None:
    refuse_contradiction("x", given, FOUND)
    limit = max(0.01 * given.value, 2 * given.standard_uncertainty)
    assert abs(given.value - FOUND.value_um) <= limit


@pytest.mark.parametrize(
    "given",
    [
        Quantity(0.506, "um"),
        Quantity(0.494, "um"),
        Quantity(0.52, "um", 0.009),
        Quantity(5.0, "um"),
    ],
)
def test_sizes_that_contradict_are_refused_with_both(given: Quantity) -> None:
    expected = rf"{given.value:.6g} um was given.*says 0\.5 um \(TIFF resolution entry"
    with pytest.raises(ScaleConflictError, match=expected):
        refuse_contradiction("x", given, FOUND)


@pytest.mark.parametrize(
    "words",
    [
        {"Synthetic": "yes"},
        {"synthetic": "seed 5"},
        {"Description": "Synthetic picture of a section, seed 5"},
        {"Software": "synthetic"},
        {"Comment": "synthetic micrograph"},
    ],
)
def test_synthetic_mark_is_found(words: dict[str, str]) -> None:
    assert synthetic_mark(words) is not None


@pytest.mark.parametrize(
    "words",
    [
        {},
        {"Description": "mounted in synthetic resin"},
        {"Description": "synthetic resin mount, step 2"},
        {"Software": "camera 3"},
    ],
)
def test_mere_mention_is_no_mark(words: dict[str, str]) -> None:
    assert synthetic_mark(words) is None
