"""The grid of papers against Appendix B of the product brief, word for word there.

Status: judgement of the brief; cells for build and performance are this project's.
"""

import pytest

from strandproof.composition import adequacy_grid, paper_adequacy, paper_kinds
from strandproof.errors import ParameterError
from strandproof.records.entries import ClaimKind

KINDS = (
    ClaimKind.COMPOSITION,
    ClaimKind.CASTING_ROUTE,
    ClaimKind.CRYSTAL_STATE,
    ClaimKind.OXYGEN,
)
# c: cannot bear, s: states it, l: only if lot-linked, b: can bear.
APPENDIX_B = {
    "data_sheet": "sccc",
    "hang_tag": "cssc",
    "purity_certificate": "lccl",
    "mill_certificate": "llcl",
    "casting_record": "clcc",
    "licence": "cccc",
    "x_ray_back_reflection": "ccbc",
    "orientation_map": "ccbc",
    "etched_section": "ccbc",
    "oxide_look_or_hydrogen_test": "cccb",
    "conductivity": "bccc",
    "insulation_test_report": "cccc",
}
WORDS = {
    "c": "cannot bear",
    "s": "states it",
    "l": "only if lot-linked",
    "b": "can bear",
}


@pytest.mark.parametrize("paper", APPENDIX_B)
def test_the_grid_is_that_of_the_brief(paper: str) -> None:
    found = [paper_adequacy(paper, kind, lot_linked=None).ability for kind in KINDS]
    assert found == [WORDS[letter] for letter in APPENDIX_B[paper]]


def test_the_grid_is_whole_and_every_cell_has_a_reason() -> None:
    assert set(paper_kinds()) == set(APPENDIX_B)
    grid = adequacy_grid()
    assert [len(row) for row in grid] == [len(ClaimKind)] * len(APPENDIX_B)
    assert all(len(cell.reason) > 10 for row in grid for cell in row)


def test_a_link_lifts_only_what_hangs_on_it() -> None:
    linked = paper_adequacy("mill_certificate", ClaimKind.COMPOSITION, lot_linked=True)
    assert linked.ability == "can bear"
    crystal = paper_adequacy(
        "mill_certificate", ClaimKind.CRYSTAL_STATE, lot_linked=True
    )
    assert crystal.ability == "cannot bear"
    tag = paper_adequacy("hang_tag", ClaimKind.CRYSTAL_STATE, lot_linked=True)
    assert tag.ability == "states it"


def test_an_unknown_paper_is_refused_with_those_known() -> None:
    with pytest.raises(ParameterError, match="mill_certificate"):
        paper_adequacy("diploma", ClaimKind.COMPOSITION, lot_linked=None)
