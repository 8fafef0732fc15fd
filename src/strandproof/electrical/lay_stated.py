"""Whether the lay of a conductor was stated where it has one."""

from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Input
from strandproof.records import Flag
from strandproof.records.electrical import ConductorForm


def require_lay(form: ConductorForm | None, lay_factor: Input | None) -> None:
    """Refuse a stranded or twisted conductor whose lay nobody stated.

    Parameters
    ----------
    form : {"straight", "stranded", "twisted"} or None
        How the conductor lay when its length was taken.
    lay_factor : Input or None
        Length of a strand over that of the core.

    Raises
    ------
    MissingMeasurementError
        If it is stranded or twisted and there is no lay factor.
    ParameterError
        If the factor is below 1, or is given for straight strands.

    Examples
    --------
    >>> require_lay("straight", None)
    """
    if form == "straight" and lay_factor is not None:
        raise ParameterError(
            "lay_factor",
            lay_factor.estimate,
            allowed="none for strands that were straight",
        )
    if lay_factor is not None and not lay_factor.estimate >= 1:
        raise ParameterError(
            "lay_factor", lay_factor.estimate, allowed="a lay factor of 1 or more"
        )
    if form in {"stranded", "twisted"} and lay_factor is None:
        missing = f"The lay of the {form} core"
        raise MissingMeasurementError(
            missing,
            reason="A strand in it is longer than the core, and 2 % of lay makes the "
            "resistivity 4 % too high by mass.",
            remedy="State pitch and diameter of the lay or the measured lay factor, "
            "or part the strands and measure one that is straight.",
        )


def lay_flags(
    form: ConductorForm | None, lay_factor: Input | None, *, strands: int
) -> tuple[Flag, ...]:
    """Flag several strands of which nobody said how they lay.

    Parameters
    ----------
    form : {"straight", "stranded", "twisted"} or None
        How the conductor lay.
    lay_factor : Input or None
        Lay factor.
    strands : int
        Strands measured together.

    Returns
    -------
    tuple of Flag
        ``lay_not_stated``, or none.

    Examples
    --------
    >>> lay_flags(None, None, strands=19)[0].name
    'lay_not_stated'
    """
    if strands > 1 and form is None and lay_factor is None:
        return (Flag("lay_not_stated", f"{strands} strands"),)
    return ()
