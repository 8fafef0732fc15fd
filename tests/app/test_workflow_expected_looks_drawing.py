"""Looks beside a user's picture: same size and scale, synthetic, the original kept."""

from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest

from strandproof.app.workflow.expected_looks import LooksAsked, draw_expected_looks
from strandproof.errors import NoScaleError, OutputExistsError, ParameterError
from strandproof.quantity import Quantity
from strandproof.storage import SYNTHETIC_KEY, encode_png, read_picture

SIZE = Quantity(0.8, "um")
ROWS, COLUMNS = 120, 180


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A grey picture without a scale of its own."""
    grey = np.random.default_rng(3).uniform(0.4, 0.6, (ROWS, COLUMNS))
    path = tmp_path / "own.png"
    path.write_bytes(encode_png(grey))
    return path


def asked(**changes: object) -> LooksAsked:
    fields: dict[str, object] = {"pixel_size": SIZE, "strand_um": 80.0}
    return LooksAsked(**{**fields, **changes})  # type: ignore[arg-type]


def test_looks_have_size_scale_and_greyness_of_the_picture(
    own: Path, tmp_path: Path
) -> None:
    before = sha256(own.read_bytes()).hexdigest()
    written = draw_expected_looks(own, tmp_path / "looks", asked())
    assert [name for name, _ in written.pictures] == ["X1", "X2", "X3, X4, X5", "X8"]
    assert [name for name, _ in written.not_drawn] == ["X6", "X7"]
    for _, path in written.pictures:
        look = read_picture(path)
        assert look.pixels.shape[:2] == (ROWS, COLUMNS)
        assert look.pixel_size is not None
        assert look.pixel_size.value_um == pytest.approx(0.8, rel=1e-6, abs=0)
        assert "synthetic" in {flag.name for flag in look.flags}
        assert path.name.endswith("-synthetic.png")
        # White letters on the black box of the mark; grey elsewhere as the user's.
        assert look.pixels[:17, :60].max() == 1.0
        assert np.ptp(look.pixels, axis=2).max() < 0.01
    assert sha256(own.read_bytes()).hexdigest() == before


def test_sheet_shows_own_picture_and_every_hypothesis(
    own: Path, tmp_path: Path
) -> None:
    text = draw_expected_looks(own, tmp_path / "looks", asked()).sheet.read_text(
        "utf-8"
    )
    for label in ("X1", "X2", "X3, X4, X5", "X6", "X7", "X8"):
        assert f">{label}</h2>" in text
    assert text.count("data:image/jpeg") == 5
    assert "180 × 120 px of 0.8 µm, long section" in text
    assert "10 µm, assumed, since none was given" in text
    assert "Annealing twins: usual" in text
    assert "yours, synthetic" not in text


def test_colour_scale_and_mark_of_the_file_are_taken(tmp_path: Path) -> None:
    copper = np.full((ROWS, COLUMNS, 3), (0.8, 0.6, 0.45))
    path = tmp_path / "own.png"
    path.write_bytes(encode_png(copper, text={SYNTHETIC_KEY: "yes"}, pixel_size_um=0.8))
    written = draw_expected_looks(
        path, tmp_path / "looks", LooksAsked(mean_intercept_um=12.0)
    )
    assert [name for name, _ in written.not_drawn] == ["X8", "X6", "X7"]
    look = read_picture(written.pictures[0][1])
    assert np.ptp(look.pixels[40:80, 60:120], axis=2).mean() > 0.05
    text = written.sheet.read_text("utf-8")
    assert "the file says that it is synthetic" in text
    assert "12 µm, given" in text


def test_same_seed_gives_the_same_pictures(own: Path, tmp_path: Path) -> None:
    runs = [
        draw_expected_looks(own, tmp_path / name, asked(seed=seed))
        for name, seed in (("a", 5), ("b", 5), ("c", 6))
    ]
    first, same, other = (
        [path.read_bytes() for _, path in run.pictures] for run in runs
    )
    assert first == same
    assert first[2] != other[2]


def test_transverse_section_puts_one_crystal_under_bamboo_too(
    own: Path, tmp_path: Path
) -> None:
    written = draw_expected_looks(
        own, tmp_path / "looks", asked(direction="transverse")
    )
    pixels = {name: read_picture(path).pixels for name, path in written.pictures}
    assert np.array_equal(pixels["X1"], pixels["X8"])


def test_no_scale_no_drawing(own: Path, tmp_path: Path) -> None:
    with pytest.raises(NoScaleError):
        draw_expected_looks(own, tmp_path / "looks", asked(pixel_size=None))
    assert not (tmp_path / "looks").exists()


def test_grains_too_fine_for_the_scale_leave_no_folder(
    own: Path, tmp_path: Path
) -> None:
    with pytest.raises(ParameterError, match="mean_intercept_um"):
        draw_expected_looks(own, tmp_path / "looks", asked(mean_intercept_um=1.0))
    assert not (tmp_path / "looks").exists()


def test_folder_with_something_in_it_is_refused(own: Path, tmp_path: Path) -> None:
    with pytest.raises(OutputExistsError, match="no empty folder"):
        draw_expected_looks(own, tmp_path, asked())


def test_drawing_that_holds_no_boundary_says_so(own: Path, tmp_path: Path) -> None:
    wide = draw_expected_looks(own, tmp_path / "a", asked(strand_um=5000.0))
    words = "<p>In this drawing no boundary lies within the field"
    assert wide.sheet.read_text("utf-8").count(words) == 1
    narrow = draw_expected_looks(own, tmp_path / "b", asked(strand_um=20.0))
    assert words not in narrow.sheet.read_text("utf-8")
