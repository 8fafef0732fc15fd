"""Facts of a header that need no file."""

import pytest

from strandproof.errors import PageChoiceError
from strandproof.storage.picture_header import (
    PictureHeader,
    chosen_page,
    density_statement,
    printable_words,
)


@pytest.mark.parametrize(
    ("depth", "is_float", "expected"),
    [(1, False, 600), (8, False, 600), (16, False, 1200), (32, True, 2400)],
)
def test_unpacked_size_counts_whole_bytes(
    depth: int, expected: int, *, is_float: bool
) -> None:
    header = PictureHeader(
        file_format="TIFF",
        n_rows=10,
        n_columns=20,
        n_channels=3,
        bit_depth=depth,
        is_float=is_float,
    )
    assert header.unpacked_bytes == expected


def test_density_becomes_a_size() -> None:
    found = density_statement(25_400, 25_400, unit_um=25_400.0, source="here")
    assert found is not None
    assert (found.x, found.y, found.absolute) == (1.0, 1.0, True)


def test_density_without_unit_is_a_proportion() -> None:
    found = density_statement(2, 1, unit_um=None, source="here")
    assert found is not None
    assert (found.x, found.y, found.absolute) == (0.5, 1.0, False)


@pytest.mark.parametrize("x", [0, -1, float("nan"), float("inf"), 1e13])
def test_density_that_means_nothing_is_left_out(x: float) -> None:
    assert density_statement(x, 1, unit_um=1.0, source="here") is None
    assert density_statement(1, x, unit_um=1.0, source="here") is None


def test_words_are_made_fit_to_be_shown() -> None:
    assert printable_words(" a\x07b\x1b[31m\n\0") == "a b [31m"
    assert len(printable_words("x" * 5000)) == 2000


def test_single_page_needs_no_choice() -> None:
    assert chosen_page("x", n_pages=1, given=None) == 1
    assert chosen_page("x", n_pages=3, given=2) == 2


@pytest.mark.parametrize("given", [None, 0, 4, -1])
def test_several_pages_ask(given: int | None) -> None:
    with pytest.raises(PageChoiceError, match=r"holds 3 pages .*--page 1\.\.3"):
        chosen_page("x", n_pages=3, given=given)
