import numpy as np
import numpy.typing as npt
import pytest
from scipy import ndimage
from skimage.feature import structure_tensor

from strandproof.errors import ParameterError, PictureTooSmallError
from strandproof.micrograph.render.streaks import Streak, draw_streaks
from strandproof.micrograph.slip_traces import slip_trace_field

Plane = npt.NDArray[np.float64]


def lined(
    spacing: float,
    degrees: float,
    *,
    side: int = 300,
    noise: float = 0.02,
    seed: int = 0,
) -> Plane:
    """Parallel dark lines 2 px wide, `degrees` from +x towards +y upwards."""
    rows, columns = np.indices((side, side), dtype=np.float64)
    angle = np.deg2rad(degrees)
    place = (columns * np.sin(angle) + rows * np.cos(angle) + 0.3 * spacing) % spacing
    offset = np.minimum(place, spacing - place)
    clean = 0.7 * (1 - 0.3 * np.exp(-0.5 * (offset / 0.85) ** 2))
    chance = np.random.default_rng(seed)
    return np.asarray(clean + chance.normal(0, noise, clean.shape))


@pytest.mark.parametrize("degrees", [17.0, 45.0, 73.0, 120.0, 135.0, 160.0])
@pytest.mark.parametrize("spacing", [8.0, 20.0, 40.0])
def test_drawn_lines_are_counted_and_their_direction_found(
    spacing: float, degrees: float
) -> None:
    """Lines 0.5 um a pixel: 2000/spacing per mm. 2 %: lines cut by the frame."""
    found = slip_trace_field(lined(spacing, degrees), pixel_size_um=0.5)
    np.testing.assert_allclose(found.lines_per_mm, 2000.0 / spacing, rtol=0.02)
    assert found.main_direction_deg is not None
    np.testing.assert_allclose(found.main_direction_deg, degrees, rtol=0, atol=0.3)
    assert found.alignment > 0.99


@pytest.mark.parametrize("degrees", [0.0, 90.0])
def test_lines_along_the_frame(degrees: float) -> None:
    """A field of 292 px holds 14 or 15 lines, so the number is good to one line."""
    found = slip_trace_field(lined(20.0, degrees), pixel_size_um=1.0)
    np.testing.assert_allclose(found.lines_per_mm, 50.0, rtol=0, atol=1000 / 292)
    assert found.main_direction_deg is not None
    off = abs(found.main_direction_deg - degrees)
    assert min(off, 180.0 - off) < 0.3


def test_direction_agrees_with_a_structure_tensor_of_another_library() -> None:
    picture = lined(15.0, 64.0)
    smooth = ndimage.gaussian_filter(picture, 2.0)
    rows, mixed, columns = structure_tensor(  # type: ignore[no-untyped-call]
        smooth, sigma=5.0, order="rc"
    )
    total = [float(one.mean()) for one in (rows, mixed, columns)]
    normal = 0.5 * np.rad2deg(np.arctan2(2 * total[1], total[2] - total[0]))
    found = slip_trace_field(picture, pixel_size_um=1.0).main_direction_deg
    assert found is not None
    # Smoothed first: its differences of pixels turn fine oblique lines by a degree.
    np.testing.assert_allclose(found, (90.0 - normal) % 180.0, rtol=0, atol=0.7)


def test_two_directions_fill_two_classes() -> None:
    both = np.minimum(lined(25.0, 35.0, noise=0), lined(25.0, 125.0, noise=0))
    noisy = both + np.random.default_rng(3).normal(0, 0.02, both.shape)
    found = slip_trace_field(noisy, pixel_size_um=1.0)
    # Crossings are lost: up to a tenth of the length.
    assert 0.9 * 80.0 < found.lines_per_mm < 80.0
    middles = [round(one) for one in found.directions_deg]
    classes = dict(zip(middles, found.lines_per_mm_by_direction, strict=True))
    assert classes[35] + classes[125] > 0.9 * found.lines_per_mm
    assert found.alignment < 0.05
    np.testing.assert_allclose(sum(classes.values()), found.lines_per_mm, rtol=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_noise_alone_has_hardly_a_line(seed: int) -> None:
    noise = np.random.default_rng(seed).normal(0.7, 0.02, (300, 300))
    assert slip_trace_field(noise, pixel_size_um=1.0).lines_per_mm < 2.0


def test_even_picture_has_none_and_no_direction() -> None:
    found = slip_trace_field(np.full((80, 80), 0.5), pixel_size_um=1.0)
    assert found.lines_per_mm == 0.0
    assert found.main_direction_deg is None


def test_colour_and_brightness_do_not_matter() -> None:
    grey = lined(20.0, 30.0)
    colour = np.repeat((180.0 * grey)[:, :, None], 3, axis=2)
    first = slip_trace_field(grey, pixel_size_um=1.0).lines_per_mm
    second = slip_trace_field(colour, pixel_size_um=1.0).lines_per_mm
    np.testing.assert_allclose(first, second, rtol=1e-6)


def test_only_metal_counts() -> None:
    picture = lined(20.0, 30.0)
    metal = np.zeros(picture.shape, np.bool_)
    metal[:, 150:] = True
    picture[:, :150] = 0.1
    found = slip_trace_field(picture, pixel_size_um=1.0, valid=metal)
    np.testing.assert_allclose(found.lines_per_mm, 50.0, rtol=0.06)
    assert found.area_mm2 < 0.5 * 0.3**2


def test_streaks_of_the_renderer_are_found() -> None:
    """Twenty uneven marks of 200 px, drawn by the renderer of sections."""
    chance = np.random.default_rng(4)
    streaks = [
        Streak((60.0 + 12.0 * k, 50.0), (60.0 + 12.0 * k + 70.0, 250.0), 2.0, 0.5)
        for k in range(14)
    ]
    planes = draw_streaks((300, 300), streaks, chance)
    light = 0.7 * (1.0 - planes.dark) + chance.normal(0, 0.01, (300, 300))
    found = slip_trace_field(light, pixel_size_um=1.0)
    drawn_mm = 14 * float(np.hypot(70.0, 200.0)) / 1e3
    length = found.lines_per_mm * found.area_mm2
    # Ends fade out over a fourteenth of the length at each side.
    assert 0.85 * drawn_mm < length < 1.05 * drawn_mm
    assert found.main_direction_deg is not None
    down = 180.0 - float(np.rad2deg(np.arctan2(70.0, 200.0)))
    np.testing.assert_allclose(found.main_direction_deg, down, rtol=0, atol=1.0)


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="above zero"):
        slip_trace_field(lined(20.0, 0.0), pixel_size_um=0.0)
    with pytest.raises(PictureTooSmallError, match="at least 64"):
        slip_trace_field(np.zeros((63, 100)), pixel_size_um=1.0)
