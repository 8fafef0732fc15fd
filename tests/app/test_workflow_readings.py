"""A reading of a micrograph is a reading of its section."""

import pytest
from report_examples import like, state_of, things

from strandproof.app.workflow.readings import section_read
from strandproof.records.entries import Micrograph, Reading


@pytest.mark.parametrize(
    ("reads", "section"),
    [
        ("micrograph/f1", "E1-s1-L"),
        ("section/E1-s1-L", "E1-s1-L"),
        ("specimen/E1-s1", None),
    ],
)
def test_section_behind_a_reading(reads: str, section: str | None) -> None:
    state = state_of(*things(), like(Micrograph))
    found = section_read(state, like(Reading, reads=reads))
    assert (None if found is None else found.id) == section
