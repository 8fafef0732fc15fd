"""None resolved over a length: a bound, and "single" only beside a sound control.

Product brief, section 2.2 (computed there): 36 mm without a boundary give at most
0.083 per mm and a mean crystal of at least 12.0 mm (95 %). Printed digits compared.
"""

from math import inf, nan
from pathlib import Path

import pytest
from workflow_examples import WHEN, add, contents, desk_at, started, verdict

from strandproof.app.workflow import Desk, enter_no_boundary, open_case
from strandproof.errors import ParameterError, UnknownLabelError
from strandproof.records.entries import ClaimKind, Entry, Measurement


def with_control(
    folder: Path,
    *,
    seen: str = "boundaries",
    mount: str = "m1",
    kind: str = "polycrystal",
) -> Desk:
    """A strand in mount m1, and a control that was read."""
    desk = started(folder)
    control = {"id": "c1", "specimen": "c1", "kind": kind, "known_by": "papers"}
    add(
        desk,
        [
            ("specimen", {"id": "c1", "exhibit": "E1", "taken_from": "x", **WHEN}),
            *(
                ("section", {"id": name, "specimen": piece, **LONG, "mount": place})
                for name, piece, place in (("L", "E1-s1", "m1"), ("c-L", "c1", mount))
            ),
            ("control", {**control, "mount": mount}),
            verdict({"section": "c-L", "A1": seen}, "A1"),
        ],
    )
    return desk


LONG = {"direction": "longitudinal"}


def body_of(entry: Entry) -> Measurement:
    assert isinstance(entry.body, Measurement)
    return entry.body


def test_36_mm_give_the_bound_of_the_brief(tmp_path: Path) -> None:
    desk = with_control(tmp_path / "H0")
    entry = enter_no_boundary(desk, "bound", "E1-s1", length_mm=36)
    assert open_case(desk.folder).record(Measurement, "bound") == entry.body
    rate, spacing = (each.value for each in body_of(entry).results)
    assert rate is not None
    assert rate.value == 0
    assert rate.lower is None
    assert rate.upper == pytest.approx(0.083, rel=0, abs=0.0005)
    assert rate.confidence == 0.95
    assert spacing is not None
    assert spacing.lower == pytest.approx(12.0, rel=0, abs=0.05)
    assert spacing.upper is None


def test_it_never_says_that_there_is_none(tmp_path: Path) -> None:
    desk = with_control(tmp_path / "H0")
    words = body_of(enter_no_boundary(desk, "bound", "E1-s1", length_mm=36)).results
    assert words[0].words.startswith("No boundary resolved over 36 mm: at most 0.083")


def test_bears_on_crystals_only(tmp_path: Path) -> None:
    desk = with_control(tmp_path / "H0")
    body = body_of(enter_no_boundary(desk, "bound", "E1-s1", length_mm=36))
    assert body.bears_on == (ClaimKind.CRYSTAL_STATE,)
    assert set(body.does_not_bear_on) == set(ClaimKind) - set(body.bears_on)


def test_single_beside_a_control_that_showed_its_boundaries(tmp_path: Path) -> None:
    desk = with_control(tmp_path / "H0")
    body = body_of(enter_no_boundary(desk, "bound", "E1-s1", length_mm=36))
    assert (body.verdict, body.flags) == ("single", ())


@pytest.mark.parametrize(
    "changes",
    [
        pytest.param({"seen": "none_resolved"}, id="control that showed none"),
        pytest.param({"seen": "not_readable"}, id="control that was not readable"),
        pytest.param({"mount": "m2"}, id="control in another mount"),
        pytest.param({"kind": "single_crystal"}, id="control of the other sort"),
    ],
)
def test_without_such_a_control_it_stays_undecided(
    tmp_path: Path, changes: dict[str, str]
) -> None:
    desk = with_control(tmp_path / "H0", **changes)
    body = body_of(enter_no_boundary(desk, "bound", "E1-s1", length_mm=36))
    assert (body.verdict, body.flags) == ("undecided", ("no_boundary_found",))


def test_without_any_section_it_stays_undecided(tmp_path: Path) -> None:
    desk = started(tmp_path / "H0")
    body = body_of(enter_no_boundary(desk, "bound", "E1-s1", length_mm=36))
    assert body.verdict == "undecided"


@pytest.mark.parametrize("length_mm", [0.0, -1.0, nan, inf])
def test_length_that_is_none_is_refused_and_changes_nothing(
    tmp_path: Path, length_mm: float
) -> None:
    desk = started(tmp_path / "H0")
    before = contents(desk.folder)
    with pytest.raises(ParameterError):
        enter_no_boundary(desk, "bound", "E1-s1", length_mm=length_mm)
    assert contents(desk.folder) == before


def test_unknown_specimen_is_refused_and_changes_nothing(tmp_path: Path) -> None:
    desk = started(tmp_path / "H0")
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="no specimen 'E9'"):
        enter_no_boundary(desk_at(desk.folder), "bound", "E9", length_mm=36)
    assert contents(desk.folder) == before
