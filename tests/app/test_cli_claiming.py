"""What was said and by whom, by commands."""

import json
from pathlib import Path

import pytest
from command_line import Command


@pytest.fixture
def page(tmp_path: Path) -> Path:
    path = tmp_path / "page.html"
    path.write_text("<p>Cores 26 AWG</p><p>129.00</p>", encoding="utf-8")
    return path


@pytest.fixture
def shop(command: Command, case: Path, page: Path) -> Path:
    """The case of one tag, with a shop's page that says 26 AWG."""
    answer = command(
        *("claim", case, "--id", "K3", "--words", "cores 26 AWG", "--by", "R"),
        *("--wording", "26 AWG", "--speaker", "Lantern Row", "--role", "shop"),
        *("--medium", "product page", "--place", "page of the lead"),
        *("--at", "2031-03-03T19:12Z", "--kind", "build", "--reading", "0.1288 mm2"),
        *("--price", "129.00 EUR", "--region", "Westland", "--capture", page),
    )
    assert answer.code == 0, answer.words
    return case


def test_grid_says_not_looked_at_until_the_copies_are_searched(
    command: Command, shop: Path
) -> None:
    before = command("claim-grid", shop)
    assert "hang tag: not looked at" in before.out
    searched = command("search-capture", shop, "--by", "R")
    assert searched.code == 0, searched.words
    after = command("claim-grid", shop, "--questions").out
    assert "hang tag: not said 2031-04-02" in after
    assert "“26 AWG”: not said by the maker in any place captured (hang tag)." in after
    assert "K3, copy K3-capture: What is it? product page, the whole of it." in after
    again = command("search-capture", shop, "--by", "R")
    assert "searched for these words already" in again.words
    assert json.loads(command("search-capture", shop, "--by", "R", "--json").out) == []


def test_grid_as_data(command: Command, shop: Path) -> None:
    command("search-capture", shop, "--by", "R")
    data = json.loads(command("claim-grid", shop, "--json").out)
    row = next(each for each in data["rows"] if each["wording"] == "26 AWG")
    said = {
        place["medium"]: cell["said"]
        for place, cell in zip(data["places"], row["cells"], strict=True)
    }
    assert said == {"hang tag": "not said", "product page": "said"}


def test_recheck_compares_and_the_grid_keeps_both_days(
    command: Command, shop: Path, tmp_path: Path
) -> None:
    later = tmp_path / "later.html"
    later.write_text("<p>129.00</p>", encoding="utf-8")
    words = ("recheck", shop, "K3-capture", later, "--id", "K3-later", "--by", "R")
    answer = command(*words, "--at", "2031-08-01")
    assert answer.code == 0, answer.words
    assert "- Cores 26 AWG" in answer.out
    assert "no longer says “26 AWG”: changed after 2031-03-03" in answer.words
    data = json.loads(
        command(*words[:5], "K3-last", *words[6:], "--at", "2031-09-01", "--json").out
    )
    assert data["earlier"] == "K3-later"
    assert data["same_bytes"] is True


def test_place_frozen_and_looked_through_by_a_person(
    command: Command, shop: Path, picture: Path
) -> None:
    answer = command(
        *("capture", shop, picture, "--id", "sheet", "--medium", "data sheet"),
        *("--place", "revision B", "--at", "2031-03-04", "--role", "maker"),
        *("--unchanged-since", "2031-01-01", "--by", "R"),
    )
    assert answer.code == 0, answer.words
    refused = command("search-capture", shop, "sheet", "--by", "R")
    assert refused.code == 1
    assert "is no text that the program can search" in refused.words
    found = command(
        *("search-capture", shop, "sheet", "--by", "R", "--for", "26 AWG"),
        *("--looked-through", "read"),
    )
    assert found.code == 0, found.words
    assert "data sheet, revision B: not said 2031-03-04" in (
        command("claim-grid", shop).out
    )


def test_found_without_a_person_is_misuse(command: Command, shop: Path) -> None:
    answer = command("search-capture", shop, "--by", "R", "--found", "26 AWG")
    assert answer.code == 2
    assert "--found belongs to --looked-through" in answer.words


def test_words_that_stand_in_a_text_cannot_be_denied(
    command: Command, shop: Path
) -> None:
    answer = command(
        *("search-capture", shop, "K3-capture", "--by", "R"),
        *("--looked-through", "read"),
    )
    assert answer.code == 1
    assert "holds “26 AWG”" in answer.words


def test_pages_that_are_due(command: Command, shop: Path) -> None:
    due = command("still-online", shop, "--at", "2031-04-20")
    assert "product page, page of the lead: last captured 47 days ago" in due.words
    assert "hang tag" not in due.words
    none = command("still-online", shop, "--at", "2031-03-05", "--days", "9")
    assert "No place is due." in none.out
    data = json.loads(
        command("still-online", shop, "--days", "1", "--at", "2031-03-06", "--json").out
    )
    assert [each["last_capture"] for each in data] == ["K3-capture"]


def test_costs_and_blanks(command: Command, shop: Path) -> None:
    assert "nothing entered" in command("costs", shop).out
    assert json.loads(command("costs", shop, "--json").out)["money"] == {}
    blanks = command("blanks", shop)
    assert "Before the plan is locked: Interests of R, blank: fees" in blanks.words
    data = json.loads(command("blanks", shop, "--json").out)
    assert len(data["lock"]) == 5
    assert set(data["lock"]) <= set(data["publication"])


def test_show_begins_with_what_is_declared(command: Command, shop: Path) -> None:
    lines = command("show", shop).out.splitlines()
    assert lines[1] == "R has not said anything of own interests yet."
