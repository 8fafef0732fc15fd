"""The report page in a real browser: offline, on a phone, by keyboard."""

import os
import shutil
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from case_examples import write_example_case
from playwright.sync_api import Browser, Page, Request, sync_playwright

from strandproof.records.entries import Claim
from strandproof.report import case_report, case_report_html
from strandproof.storage import read_case

PHONE, DESK = {"width": 390, "height": 844}, {"width": 1400, "height": 900}


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Debian's Chromium; where there is none, tests skip, but never in CI."""
    path = shutil.which("chromium")
    if path is None:
        words = "no Chromium on this machine: apt-get install chromium"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(
            executable_path=path, args=["--no-sandbox", "--disable-gpu"]
        )
        yield found
        found.close()


@pytest.fixture(scope="module")
def report(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("case")
    write_example_case(folder / "H7")
    state = read_case(folder / "H7").state
    made_at = state.entries[-1].recorded_at
    page = case_report_html(
        case_report(state, pictures={}, made_at=made_at, program="a test")
    )
    path = folder / "report.html"
    path.write_text(page, encoding="utf-8")
    assert state.record(Claim, "K1").words in page
    return path


def opened(
    browser: Browser, report: Path, size: dict[str, int]
) -> tuple[Page, list[str]]:
    """Open the report without a network; give the page and all it asked for."""
    context = browser.new_context(viewport=size, offline=True)  # type: ignore[arg-type]
    page = context.new_page()
    asked: list[str] = []

    def note(request: Request) -> None:
        asked.append(request.url)

    page.on("request", note)
    page.goto(report.as_uri())
    return page, asked


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_page_reads_offline_and_without_sideways_scrolling(
    browser: Browser, report: Path, size: dict[str, int]
) -> None:
    page, asked = opened(browser, report, size)
    assert asked == [report.as_uri()]
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= size["width"]
    assert page.locator("h1").count() == 1
    assert "What was not shown" in page.inner_text("body")


def test_wide_drawing_is_reached_by_keyboard_on_a_phone(
    browser: Browser, report: Path
) -> None:
    page, _ = opened(browser, report, PHONE)
    for _press in range(30):  # other wide drawings and tables come before it
        page.keyboard.press("Tab")
        focused = page.evaluate("document.activeElement.getAttribute('aria-label')")
        if (focused or "").startswith("Likelihood ratios for K1"):
            break
    else:
        pytest.fail("the drawing was not reached by 30 presses of the tab key")
    before = page.evaluate("document.activeElement.scrollLeft")
    for _press in range(10):
        page.keyboard.press("ArrowRight")
    page.wait_for_function("document.activeElement.scrollLeft > 0")
    assert before == 0


def test_headings_go_down_one_step_at_a_time(browser: Browser, report: Path) -> None:
    page, _ = opened(browser, report, DESK)
    levels = page.eval_on_selector_all(
        "h1,h2,h3,h4", "nodes => nodes.map(node => Number(node.tagName[1]))"
    )
    assert levels[0] == 1
    steps = pairwise(levels)
    assert all(after - before <= 1 for before, after in steps)
