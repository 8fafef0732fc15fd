import pytest

from strandproof.composition import nines_written, purity_in_words, stated_nines
from strandproof.composition.nines import nines_number
from strandproof.errors import ParameterError


def test_4n7_allows_30_ppm() -> None:
    stated = stated_nines("4n7")
    assert (stated.word, stated.purity_percent, stated.impurity_ppm) == (
        "4N7",
        99.997,
        30.0,
    )


@pytest.mark.parametrize("word", ["", "N4", "4N10", "0N", "99.99", "four nines"])
def test_words_that_are_no_nines_are_refused(word: str) -> None:
    with pytest.raises(ParameterError, match="4N, 4N7 or 6N"):
        stated_nines(word)


@pytest.mark.parametrize("count", range(1, 9))
@pytest.mark.parametrize("digit", range(1, 9))
def test_written_nines_are_read_back_and_never_rounded_up(
    count: int, digit: int
) -> None:
    word = f"{count}N{digit}"
    allowed = stated_nines(word).impurity_ppm
    assert nines_written(allowed) == word
    assert nines_written(allowed * 1.0001) != word
    assert stated_nines(nines_written(allowed * 1.0001)).impurity_ppm > allowed


def test_ends_of_the_scale() -> None:
    assert nines_written(0) == "9N"
    assert nines_written(5e5) == "no nine"
    assert purity_in_words(0.4) == "99.999960 % (6N6)"
    with pytest.raises(ParameterError, match="0 to 1e6"):
        nines_written(-1)
    with pytest.raises(ParameterError, match="above 0"):
        nines_number(0)
