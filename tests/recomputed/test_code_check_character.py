"""The check character of codes.

Source: ISO/IEC 7064, system MOD 37,36 (hybrid), from memory; the value DQV83 -> 5 and
the failing DQV-853 are those of the product brief, Appendix A (marked there as from
memory too). Here the definition is applied in its other form: the sum is carried along
including the check character and must end at 1, so that the character is found by trial
and not by solving for it. Exact; no tolerance.
"""

import csv
from importlib.resources import files

from hypothesis import given
from hypothesis import strategies as st

from strandproof.planning import check_character, is_sound

VALUES = {
    sign: value for value, sign in enumerate("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ")
}


def ends_at_one(code: str) -> bool:
    """Carry P through the whole code: S = P + value, P = 2 S (mod 37), S mod 36 = 1."""
    carried = 36
    total = 0
    for sign in code:
        total = carried + VALUES[sign]
        while total > 36:
            total -= 36
        carried = (total * 2) % 37
    return total == 1


def test_brief_example() -> None:
    assert check_character("DQV83") == "5"
    assert is_sound("DQV-835")
    assert not is_sound("DQV-853")


@given(st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=12))
def test_character_is_the_only_one_that_trial_finds(body: str) -> None:
    fitting = [sign for sign in VALUES if ends_at_one(body + sign)]
    assert fitting == [check_character(body)]


def test_codes_typed_for_case_h7_are_sound() -> None:
    """The codes of the demonstration were typed before this check existed."""
    table = files("strandproof.app.workflow.demo").joinpath("H7-sections.csv")
    codes = [
        row["code"] for row in csv.DictReader(table.read_text("utf-8").splitlines())
    ]
    assert len(codes) == 44
    assert all(map(is_sound, codes))
