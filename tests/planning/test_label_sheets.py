"""Labels say the code and how the piece is cut; the coder's list says the rest."""

from case_examples import CASE, moment
from report_examples import state_of

from strandproof.planning import label_sheet
from strandproof.records.entries import Section, Specimen

STATE = state_of(
    Specimen(
        id="E1-s1",
        exhibit="E1",
        taken_from="x",
        taken_at=moment(4, 5),
        taken_by="R",
    ),
    Section(id="E1-s1-L", specimen="E1-s1", direction="longitudinal"),
)


def test_labels_are_sorted_by_code_and_say_no_piece() -> None:
    sheet = label_sheet(
        STATE,
        {"ZJP-250": "section/E1-s1-L", "DQV-835": "specimen/E1-s1"},
        spares=("FBD-646",),
        day="2031-05-01",
        initials="C",
    )
    assert [each.code for each in sheet.labels] == ["DQV-835", "FBD-646", "ZJP-250"]
    assert [each.cut for each in sheet.labels] == ["", "", "cut along the strand"]
    assert [each.spare for each in sheet.labels] == [False, True, False]
    assert {each.case for each in sheet.labels} == {CASE.id}
    assert {each.seal_number for each in sheet.labels} == {""}
    assert "E1" not in repr(sheet.labels)


def test_coders_list_goes_by_piece_and_ends_with_spares() -> None:
    assigned = {"ZJP-250": "section/E1-s1-L", "DQV-835": "specimen/E1-s1"}
    sheet = label_sheet(
        STATE, assigned, spares=("FBD-646",), day="2031-05-01", initials="C"
    )
    assert [each.code for each in sheet.coder_list] == ["ZJP-250", "DQV-835", "FBD-646"]
    assert sheet.assignments == assigned
    assert sheet.warning.endswith("Do not send.")
