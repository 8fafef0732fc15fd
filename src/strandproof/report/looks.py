"""What each explanation leads one to expect, drawn beside a user's picture."""

from collections.abc import Sequence
from dataclasses import dataclass

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from strandproof.report.figures import MicrographPicture, micrograph_svg


@dataclass(frozen=True, slots=True, kw_only=True)
class LookPanel:
    """One look, or why there is none.

    Parameters
    ----------
    labels : tuple of str
        Hypotheses that share it, for example ("X3", "X4", "X5").
    statements : tuple of str
        The hypotheses as sentences, in the same order.
    words : tuple of str
        What is drawn, and what it cannot tell.
    expected : tuple of str
        What the tables expect of this section, with their word.
    picture : MicrographPicture or None
        Copy of the drawing; None where there is no look of its own.
    """

    labels: tuple[str, ...]
    statements: tuple[str, ...]
    words: tuple[str, ...]
    expected: tuple[str, ...]
    picture: MicrographPicture | None

    @property
    def name(self) -> str:
        """Give the labels as a heading."""
        return ", ".join(self.labels)


@dataclass(frozen=True, slots=True, kw_only=True)
class LooksSheet:
    """A user's picture and the looks beside it, all at one scale.

    Parameters
    ----------
    name : str
        Name of the user's file.
    own : MicrographPicture
        Copy of the user's picture.
    own_synthetic : bool
        True where the user's picture says that a program drew it.
    um_per_px : float
        Pixel size of all pictures [um].
    section : str
        Direction of the section, in words.
    assumed : tuple of str
        What was assumed for the drawings, as sentences.
    panels : tuple of LookPanel
        The looks, then those without one.
    """

    name: str
    own: MicrographPicture
    own_synthetic: bool
    um_per_px: float
    section: str
    assumed: tuple[str, ...]
    panels: tuple[LookPanel, ...]


@dataclass(frozen=True, slots=True)
class _Drawn:
    panel: LookPanel
    svg: Markup | None


def expected_looks_html(sheet: LooksSheet) -> str:
    """Write the sheet as one HTML file, readable offline and on a phone.

    Parameters
    ----------
    sheet : LooksSheet
        What it shows; every word of a user goes in as data, never as markup.

    Returns
    -------
    str
        The page, with its style and its pictures inside.
    """
    environment = Environment(
        loader=PackageLoader("strandproof.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    template = environment.get_template("expected_looks.html")
    return template.render(sheet=sheet, own=_own(sheet), drawn=_panels(sheet))


def _own(sheet: LooksSheet) -> Markup:
    kind = "synthetic picture" if sheet.own_synthetic else "picture"
    return micrograph_svg(
        sheet.own,
        pixel_size_um=sheet.um_per_px,
        alt=f"Your {kind} {sheet.name}, {sheet.section}",
        mark="yours, synthetic" if sheet.own_synthetic else "yours",
    )


def _panels(sheet: LooksSheet) -> Sequence[_Drawn]:
    return [
        _Drawn(
            panel,
            None
            if panel.picture is None
            else micrograph_svg(
                panel.picture,
                pixel_size_um=sheet.um_per_px,
                alt=f"Synthetic drawing of {panel.name}, {sheet.section}: "
                + " ".join(panel.words),
                mark=f"{panel.name} synthetic",
            ),
        )
        for panel in sheet.panels
    ]
