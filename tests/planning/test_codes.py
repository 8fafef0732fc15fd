"""Codes: every typing error is found, none says anything, none is near another."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.planning import (
    check_character,
    draw_codes,
    is_sound,
    nearest_codes,
    typing_errors,
)
from strandproof.planning.codes import CHARACTERS, CODE_LETTERS

seeds = st.integers(0, 2**32 - 1)


def single_errors(code: str) -> list[str]:
    return [
        code[:at] + sign + code[at + 1 :]
        for at in range(len(code))
        for sign in CHARACTERS
        if sign != code[at]
    ]


def neighbouring_swaps(code: str) -> list[str]:
    return [
        code[:at] + code[at + 1] + code[at] + code[at + 2 :]
        for at in range(len(code) - 1)
        if code[at] != code[at + 1]
    ]


@given(seed=seeds)
@settings(max_examples=40)
def test_every_single_error_and_every_swap_is_found(seed: int) -> None:
    for code in draw_codes(8, np.random.default_rng(seed)):
        plain = code.replace("-", "")
        assert is_sound(code)
        assert not any(map(is_sound, single_errors(plain)))
        assert not any(map(is_sound, neighbouring_swaps(plain)))


@given(st.text(CHARACTERS, min_size=1, max_size=10))
def test_single_errors_are_found_in_any_code(body: str) -> None:
    code = body + check_character(body)
    assert not any(map(is_sound, single_errors(code)))


def test_the_check_alone_misses_some_swaps_of_other_codes() -> None:
    """Why codes are chosen: the system does not find every swap of neighbours."""
    bodies = (f"{a}{b}0" for a in CHARACTERS for b in CHARACTERS)
    codes = [body + check_character(body) for body in bodies]
    missed = [code for code in codes if any(map(is_sound, neighbouring_swaps(code)))]
    assert missed


def test_codes_are_three_errors_apart() -> None:
    taken = draw_codes(30, np.random.default_rng(1))
    codes = draw_codes(90, np.random.default_rng(2), taken=taken)
    plain = [code.replace("-", "") for code in (*taken, *codes)]
    assert len(set(plain)) == 120
    assert min(typing_errors(a, b) for a, b in combinations(plain, 2)) >= 3


def test_one_error_has_one_nearest_code() -> None:
    codes = draw_codes(60, np.random.default_rng(3))
    for code in codes[:6]:
        plain = code.replace("-", "")
        for typed in (*single_errors(plain)[::7], *neighbouring_swaps(plain)):
            assert nearest_codes(typed, codes) == (code,)


def test_codes_have_no_vowel_and_nothing_that_looks_like_a_digit() -> None:
    letters = "".join(code[:3] for code in draw_codes(300, np.random.default_rng(4)))
    assert set(letters) == set(CODE_LETTERS)
    assert not set(letters) & set("AEIOUYBGLSZ")


def test_same_generator_same_codes() -> None:
    one, other = (draw_codes(5, np.random.default_rng(9)) for _ in range(2))
    assert one == other


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("dqv 853", ("DQV-835",)),
        ("DQV-83", ("DQV-835",)),
        ("DQVV-835", ("DQV-835",)),
        ("XXX-000", ()),
    ],
)
def test_nearest_code(typed: str, meant: tuple[str, ...]) -> None:
    assert nearest_codes(typed, ["DQV-835", "ZJP-250"]) == meant


def test_typing_errors_of_known_pairs() -> None:
    assert typing_errors("", "AB") == 2
    assert typing_errors("CA", "ABC") == 3  # alignment, not unrestricted distance
    assert typing_errors("ABCD", "BADC") == 2


@pytest.mark.parametrize("number", [0, -1, 3001])
def test_number_of_codes_is_bounded(number: int) -> None:
    with pytest.raises(ParameterError, match="number of codes"):
        draw_codes(number, np.random.default_rng(0))


@pytest.mark.parametrize("code", ["", "DQV_835", "DÄV-835"])
def test_other_signs_are_refused(code: str) -> None:
    with pytest.raises(ParameterError, match="code was given"):
        is_sound(code)
