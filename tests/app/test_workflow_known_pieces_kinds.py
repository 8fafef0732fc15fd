"""The kinds of known piece: what each is drawn with, at one scale."""

from collections import Counter

import pytest

from strandproof.app.workflow.known_pieces.kinds import (
    PIECE_KINDS,
    SHAPE,
    STRAND_UM,
    UM_PER_PX,
    PieceKind,
)


def test_twelve_kinds_inform_both_errors_and_one_is_unreadable() -> None:
    count = Counter(kind.structure for kind in PIECE_KINDS.values())
    assert count == {"single_crystal": 6, "polycrystal": 5, "not_readable": 1}


@pytest.mark.parametrize("kind", PIECE_KINDS.values(), ids=PIECE_KINDS)
def test_structure_is_that_of_the_grains(kind: PieceKind) -> None:
    single = kind.population.family == "single"
    assert single == (kind.structure == "single_crystal")


@pytest.mark.parametrize("kind", PIECE_KINDS.values(), ids=PIECE_KINDS)
def test_scale_strand_and_size_give_nothing_away(kind: PieceKind) -> None:
    drawn = kind.parameters()
    assert (drawn.um_per_px, drawn.shape) == (UM_PER_PX, SHAPE)
    assert (drawn.layout.arrangement, drawn.layout.width_um) == ("long", STRAND_UM)
    assert drawn.scale_bar is not None
    assert drawn.camera.colour
