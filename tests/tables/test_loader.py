from datetime import date

import pytest

from strandproof.errors import StrandproofError, TableRowError
from strandproof.tables import COLUMNS, parse_table

HEADER = ",".join(COLUMNS)
GOOD = {
    "key": "a.first",
    "value": "0.320",
    "standard_uncertainty": "0.001",
    "unit": "mm",
    "conditions": "at 20 C, dry",
    "source": "A standard",
    "edition": "1986",
    "locator": "Table 4",
    "status": "read",
    "checked_by": "project",
    "checked_on": "2026-11-25",
}


def _line(**changes: str) -> str:
    return ",".join(f'"{cell}"' for cell in (GOOD | changes).values())


def _table(*lines: str) -> str:
    return "\n".join((HEADER, *lines)) + "\n"


def test_a_good_row_arrives_whole() -> None:
    row = parse_table(_table(_line()), file_name="t.csv")["a.first"]
    assert row.value == 0.320
    assert row.printed == "0.320"
    assert row.standard_uncertainty == 0.001
    assert row.conditions == "at 20 C, dry"
    assert row.checked_on == date(2026, 11, 25)
    assert row.status == "read"


@pytest.mark.parametrize(
    ("printed", "half_digit"),
    [("0.320", 0.0005), ("50", 0.5), ("-2.954", 0.0005), ("1.45e3", 5.0)],
)
def test_half_digit_comes_from_the_printed_text(
    printed: str, half_digit: float
) -> None:
    row = parse_table(_table(_line(value=printed)), file_name="t.csv")["a.first"]
    assert row.half_digit == pytest.approx(half_digit, rel=1e-12, abs=0)


def test_an_uncertainty_may_be_not_stated_but_is_not_zero_then() -> None:
    table = parse_table(_table(_line(standard_uncertainty="")), file_name="t.csv")
    assert table["a.first"].standard_uncertainty is None


def test_a_status_from_memory_needs_no_locator() -> None:
    line = _line(status="from memory", edition="", locator="")
    assert parse_table(_table(line), file_name="t.csv")["a.first"].locator == ""


def test_rows_keep_the_order_of_the_file_and_cannot_be_altered() -> None:
    table = parse_table(_table(_line(key="b"), _line(key="a")), file_name="t.csv")
    assert list(table) == ["b", "a"]
    with pytest.raises(TypeError, match="does not support item assignment"):
        table["c"] = table["a"]  # type: ignore[index]  # the point of the test


BAD_ROWS = {
    "empty key": ({"key": ""}, "key is ''"),
    "malformed key": ({"key": "A first"}, "key is 'A first'"),
    "value that is a word": ({"value": "about 3"}, "value is 'about 3'"),
    "value that is not a number": ({"value": "nan"}, "value is 'nan'"),
    "value that overflows": ({"value": "1e999"}, "value is '1e999'"),
    "value with separators": ({"value": "1_000"}, "value is '1_000'"),
    "value with a decimal comma": ({"value": "0,32"}, "value is '0,32'"),
    "no value": ({"value": ""}, "value is ''"),
    "negative uncertainty": (
        {"standard_uncertainty": "-0.1"},
        "standard_uncertainty is '-0.1'",
    ),
    "uncertainty that is a word": (
        {"standard_uncertainty": "small"},
        "standard_uncertainty is 'small'",
    ),
    "unknown unit": ({"unit": "furlong"}, "unit is 'furlong'"),
    "no unit": ({"unit": ""}, "unit is ''"),
    "empty source": ({"source": ""}, "source is ''"),
    "reading without a locator": ({"locator": ""}, "locator is ''"),
    "second-hand reading without a locator": (
        {"locator": "", "status": "read (secondary)"},
        "locator is ''",
    ),
    "unknown status": ({"status": "verified"}, "status is 'verified'"),
    "no status": ({"status": ""}, "status is ''"),
    "nobody": ({"checked_by": ""}, "checked_by is ''"),
    "bad date": ({"checked_on": "25.11.2026"}, r"checked_on is '25\.11\.2026'"),
    "date without hyphens": ({"checked_on": "20261125"}, "checked_on is '20261125'"),
    "impossible date": ({"checked_on": "2026-02-30"}, "checked_on is '2026-02-30'"),
    "no date": ({"checked_on": ""}, "checked_on is ''"),
    "space around a cell": ({"unit": "mm "}, "unit is 'mm '"),
}


@pytest.mark.parametrize(("changes", "problem"), BAD_ROWS.values(), ids=BAD_ROWS.keys())
def test_a_bad_row_names_file_line_and_problem(
    changes: dict[str, str], problem: str
) -> None:
    text = _table(_line(key="b"), _line(**changes), _line(key="c"))
    with pytest.raises(TableRowError, match=rf"^t\.csv, line 3: {problem}; ") as caught:
        parse_table(text, file_name="t.csv")
    assert (caught.value.file_name, caught.value.line) == ("t.csv", 3)


def test_a_repeated_key_names_the_second_line() -> None:
    with pytest.raises(TableRowError, match=r"^t\.csv, line 3: key is 'a\.first'"):
        parse_table(_table(_line(), _line()), file_name="t.csv")


@pytest.mark.parametrize(
    ("line", "count"), [("a,1,,mm", 4), ("", 0), (_line() + ",more", 12)]
)
def test_a_line_with_another_number_of_cells_is_refused(line: str, count: int) -> None:
    with pytest.raises(TableRowError, match=rf"^t\.csv, line 3: .* {count} cells"):
        parse_table(_table(_line(), line), file_name="t.csv")


def test_a_missing_column_is_named() -> None:
    header = HEADER.replace(",status", "")
    with pytest.raises(TableRowError, match=r"^t\.csv, line 1: .*without status;"):
        parse_table(f"{header}\n{_line()}\n", file_name="t.csv")


def test_columns_in_another_order_are_refused() -> None:
    header = HEADER.replace("key,value", "value,key")
    with pytest.raises(TableRowError, match=r"^t\.csv, line 1: the header is"):
        parse_table(f"{header}\n{_line()}\n", file_name="t.csv")


def test_an_empty_file_is_refused() -> None:
    with pytest.raises(TableRowError, match=r"^t\.csv, line 1: the header is ''"):
        parse_table("", file_name="t.csv")


def test_a_header_alone_is_refused() -> None:
    with pytest.raises(TableRowError, match="the table ends after its header"):
        parse_table(f"{HEADER}\n", file_name="t.csv")


def test_an_open_quote_is_refused() -> None:
    with pytest.raises(TableRowError, match=r"^t\.csv, line 2: the line is no CSV"):
        parse_table(f'{HEADER}\n"a', file_name="t.csv")


def test_the_line_number_counts_lines_inside_quotes() -> None:
    text = _table(_line(conditions="first\nsecond"), _line(key=""))
    with pytest.raises(TableRowError, match=r"^t\.csv, line 4: key"):
        parse_table(text, file_name="t.csv")


def test_the_fault_is_a_strandproof_error_and_a_value_error() -> None:
    assert issubclass(TableRowError, StrandproofError)
    assert issubclass(TableRowError, ValueError)
