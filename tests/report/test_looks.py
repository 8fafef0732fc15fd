"""The sheet of looks: labelled, synthetic, self-contained, no markup of a user."""

import re

import numpy as np
import pytest

from strandproof.report import MicrographPicture
from strandproof.report.looks import LookPanel, LooksSheet, expected_looks_html
from strandproof.storage import preview_jpeg

COPY = MicrographPicture(preview_jpeg(np.full((64, 96), 0.5), max_side=96), 96, 64)
DRAWN = LookPanel(
    labels=("X3", "X4"),
    statements=("X3: one.", "X4: other."),
    words=("Drawn: grains.",),
    expected=("Annealing twins: usual",),
    picture=COPY,
)
NOT_DRAWN = LookPanel(
    labels=("X7",),
    statements=("X7: third.",),
    words=("No look.",),
    expected=(),
    picture=None,
)


def page(*, name: str = "field.png", own_synthetic: bool = False) -> str:
    return expected_looks_html(
        LooksSheet(
            name=name,
            own=COPY,
            own_synthetic=own_synthetic,
            um_per_px=0.1726,
            section="long section",
            assumed=("Strand width: 80 µm, given.",),
            panels=(DRAWN, NOT_DRAWN),
        )
    )


def test_every_drawing_is_labelled_and_marked_synthetic() -> None:
    text = page()
    assert ">X3, X4 synthetic<" in text
    assert "Synthetic drawing of X3, X4, long section" in text
    assert "were drawn by a program and show no real metal" in text
    assert "Resembling a drawing is no evidence" in text
    for sentence in (*DRAWN.statements, *DRAWN.words, *DRAWN.expected):
        assert sentence in text


def test_all_pictures_have_the_bar_of_one_scale() -> None:
    bars = re.findall(r'width="([\d.]+)" height="[\d.]+" fill="#000"', page())
    assert len(bars) == 2
    assert bars[0] == bars[1]
    assert float(bars[0]) == pytest.approx(5 / 0.1726, rel=0, abs=0.01)


def test_look_without_a_picture_says_so() -> None:
    text = page()
    assert text.count("<svg") == 2
    assert "<strong>No picture.</strong>" in text
    assert "No look." in text


@pytest.mark.parametrize("own_synthetic", [False, True])
def test_own_picture_is_called_synthetic_only_if_it_is(own_synthetic: bool) -> None:  # noqa: FBT001
    text = page(own_synthetic=own_synthetic)
    assert ("yours, synthetic" in text) == own_synthetic
    assert ("the file says that it is synthetic" in text) == own_synthetic
    assert ("The pictures on this page were drawn" in text) == own_synthetic


def test_page_is_whole_and_a_file_name_stays_a_name() -> None:
    text = page(name='<script>alert("x")</script>.png')
    assert "<script" not in text
    assert "&lt;script&gt;" in text
    assert not re.findall(r'(?:src|href)="(?!data:)[^"#]', text)
    assert "default-src 'none'" in text
