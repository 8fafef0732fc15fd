"""The manual holds: its commands exist, its examples run, its links lead somewhere."""

import re
from pathlib import Path

import pytest
from typer.main import get_command

from strandproof.app.cli.program import program

ROOT = Path(__file__).parents[1]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
COMMANDS = set(get_command(program).commands)  # type: ignore[attr-defined]


def python_blocks(page: Path) -> list[str]:
    """Give plain examples; those with prompts are run beside their package."""
    blocks = re.findall(
        r"```python\n(.*?)```", page.read_text("utf-8"), flags=re.DOTALL
    )
    return [block for block in blocks if not block.startswith(">>>")]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_command_named_exists(page: Path) -> None:
    named = re.findall(r"`strandproof ([a-z][a-z-]+)", page.read_text("utf-8"))
    assert set(named) <= COMMANDS


@pytest.mark.parametrize(
    "block",
    [
        pytest.param(block, id=f"{page.name}-{number}")
        for page in PAGES
        for number, block in enumerate(python_blocks(page))
    ],
)
def test_every_example_runs(block: str) -> None:
    exec(compile(block, "example", "exec"), {})  # noqa: S102 - our own examples


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_link_leads_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)#]+)\)", page.read_text("utf-8")):
        assert (page.parent / target).exists(), target


def test_readme_starts_with_the_job_and_the_two_commands() -> None:
    text = (ROOT / "README.md").read_text("utf-8")
    commands = re.findall(r"```sh\n(.*?)\n```", text, flags=re.DOTALL)[:2]
    assert "strandproof demo" in commands[0]
    assert "pytest" in commands[1]
    assert text.index("An independent tester") < text.index("```sh")


def test_every_command_is_in_the_help_and_in_the_changelog_or_readme() -> None:
    told = (ROOT / "CHANGELOG.md").read_text("utf-8") + (ROOT / "README.md").read_text(
        "utf-8"
    )
    missing = {name for name in COMMANDS if f"`{name}`" not in told}
    assert not missing
