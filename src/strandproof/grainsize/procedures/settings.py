"""What every procedure of one count shares: scale, rules, scores, constants."""

from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.figures import print_size_um
from strandproof.grainsize.procedures.scoring import scoring_rules
from strandproof.grainsize.relations import GrainSizeRelations, package_relations
from strandproof.grainsize.rules import counting_rules
from strandproof.grainsize.scaling import require_pixel_size
from strandproof.quantity import Quantity
from strandproof.records.measurement import CountingRules
from strandproof.records.procedures import ScoringRules


@dataclass(frozen=True, slots=True, kw_only=True)
class ProcedureSettings:
    """Options of a count.

    Parameters
    ----------
    pixel_size : Quantity or None
        Size of a pixel [um]; None counts in pixels, without G.
    rules : CountingRules
        Thresholds and frame rule.
    scoring : ScoringRules
        Scores of what test lines meet.
    relations : GrainSizeRelations
        Constants of G.
    magnification : float or None
        Figures as large as a standard draws them on a print of this
        magnification; None takes the largest that fit.
    placements : int
        Most circles laid side by side on one piece of metal; 1 or more.
    """

    pixel_size: Quantity | None
    rules: CountingRules
    scoring: ScoringRules
    relations: GrainSizeRelations
    magnification: float | None = None
    placements: int = 1

    def print_size_px(self, size_mm: float) -> float | None:
        """Size of a figure of the print in pixels of the picture.

        Parameters
        ----------
        size_mm : float
            Size on the print [mm]; above 0.

        Returns
        -------
        float or None
            Size [px]; None where the largest that fits is wanted.

        Raises
        ------
        ParameterError
            If a magnification is given without a pixel size.
        """
        if self.magnification is None:
            return None
        if self.pixel_size is None:
            raise ParameterError(
                "magnification",
                self.magnification,
                allowed="a magnification together with a pixel size",
                remedy="Give the pixel size, or leave the magnification out.",
            )
        return print_size_um(size_mm, self.magnification) / self.pixel_size.value


def procedure_settings(
    pixel_size: Quantity | None,
    *,
    rules: CountingRules | None = None,
    scoring: ScoringRules | None = None,
    relations: GrainSizeRelations | None = None,
    magnification: float | None = None,
    placements: int = 1,
) -> ProcedureSettings:
    """Give settings, with the package's own for everything left out.

    Parameters
    ----------
    pixel_size : Quantity or None
        Size of a pixel [um]; above 0.
    rules : CountingRules, optional
        None takes `counting_rules`.
    scoring : ScoringRules, optional
        None takes `scoring_rules`.
    relations : GrainSizeRelations, optional
        None takes the package's ``"e112"`` form.
    magnification : float or None
        Print whose figures are wanted; needs a pixel size.
    placements : int
        Most circles side by side.

    Returns
    -------
    ProcedureSettings
        The settings.

    Raises
    ------
    UnitError
        If the pixel size is not in um.
    ParameterError
        If the pixel size or the magnification is not above 0, or no circle is to
        be laid.
    """
    if pixel_size is not None:
        require_pixel_size(pixel_size)
    if magnification is not None and not magnification > 0:
        raise ParameterError("magnification", magnification, allowed="a number above 0")
    if placements < 1:
        raise ParameterError("placements", placements, allowed="1 or more")
    return ProcedureSettings(
        pixel_size=pixel_size,
        rules=rules or counting_rules(),
        scoring=scoring or scoring_rules(),
        relations=relations or package_relations(),
        magnification=magnification,
        placements=placements,
    )
