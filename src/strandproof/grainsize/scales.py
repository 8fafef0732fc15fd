"""Other scales of grain size: metric index, square inch, magnification, macro."""

from math import log2

from strandproof.grainsize.relations import (
    GrainSizeRelations,
    package_relations,
    require_g,
    require_positive,
)


def metric_index(
    grains_per_mm2: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """Metric grain size index, which is not the ASTM number.

    Parameters
    ----------
    grains_per_mm2 : float
        Grains per area of the section [1/mm^2]; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        N in grains per mm^2 = 8 x 2^N; 0.0458 below the planimetric G of the
        same structure.

    Raises
    ------
    ParameterError
        If the count is not a finite number above 0.

    Notes
    -----
    GOST 21073.1-75 Appendix 4, read; ISO 643 has the same law, from memory.

    Examples
    --------
    >>> metric_index(16.0)
    1.0
    """
    require_positive("grains_per_mm2", grains_per_mm2)
    law = relations or package_relations()
    return log2(grains_per_mm2 / law.metric_grains_at_zero)


def grains_per_square_inch_of(
    g: float,
    *,
    magnification: float = 100.0,
    relations: GrainSizeRelations | None = None,
) -> float:
    """Grains seen per square inch of a picture, the definition's own form.

    Parameters
    ----------
    g : float
        ASTM grain size number.
    magnification : float
        Magnification of the picture; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        Grains per square inch [1/in2] at that magnification.

    Raises
    ------
    ParameterError
        If the magnification is not above 0 or G not between -300 and 300.

    Notes
    -----
    N = 2^(G - 1) (100 / M)^2, ASTM E112 3.2.1, read in a fragment that quotes it.

    Examples
    --------
    >>> grains_per_square_inch_of(6.0, magnification=1.0)
    320000.0
    """
    require_positive("magnification", magnification)
    require_g(g)
    law = relations or package_relations()
    return float(2.0 ** (g - 1.0)) * (law.definition_magnification / magnification) ** 2


def g_of_grains_per_square_inch(
    grains_per_square_inch: float,
    *,
    magnification: float = 100.0,
    relations: GrainSizeRelations | None = None,
) -> float:
    """ASTM grain size number from grains per square inch of a picture.

    Parameters
    ----------
    grains_per_square_inch : float
        Grains per square inch of the picture [1/in2]; above 0.
    magnification : float
        Magnification of the picture; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        G by the definition, without rounded constants.

    Raises
    ------
    ParameterError
        If one of the two is not a finite number above 0.

    Notes
    -----
    G = 1 + log2(N (M / 100)^2), ASTM E112 3.2.1.

    Examples
    --------
    >>> round(g_of_grains_per_square_inch(25.0, magnification=75.0), 2)
    4.81
    """
    require_positive("grains_per_square_inch", grains_per_square_inch)
    shift = magnification_shift(magnification, relations=relations)
    return 1.0 + log2(grains_per_square_inch) + shift


def magnification_shift(
    magnification: float,
    *,
    basis: float | None = None,
    relations: GrainSizeRelations | None = None,
) -> float:
    """Return what to add to a G read as if at the basis magnification.

    Parameters
    ----------
    magnification : float
        True magnification of the picture; above 0.
    basis : float, optional
        Magnification that the reading assumed; None takes the definition's 100.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        Q in G = G' + Q, where G' is the number read as if at the basis.

    Raises
    ------
    ParameterError
        If a magnification is not a finite number above 0.

    Notes
    -----
    Q = 2 log2(M / M_basis); GB 6394-86 eq. (2), read, prints 6.6439 lg(M/M_b).

    Examples
    --------
    >>> magnification_shift(400.0)
    4.0
    """
    law = relations or package_relations()
    read_at = law.definition_magnification if basis is None else basis
    require_positive("magnification", magnification)
    require_positive("basis", read_at)
    return 2.0 * log2(magnification / read_at)


def macro_g(g: float, *, relations: GrainSizeRelations | None = None) -> float:
    """Macro grain size number of the same structure, counted at 1x.

    Parameters
    ----------
    g : float
        ASTM grain size number, planimetric or intercept.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        G_M; 13.2877 above G, because the same law is applied at 1x.

    Raises
    ------
    ParameterError
        If G is not a number between -300 and 300.

    Notes
    -----
    G_M counts grains per 645.16 mm^2 at 1x: GB 6394-86 2.2.2, read. That G_M = 0
    means a mean intercept of 32.00 mm is from memory of ASTM E112.

    Examples
    --------
    >>> from strandproof.grainsize.relations import intercept_g
    >>> abs(macro_g(intercept_g(32.0))) < 0.001
    True
    """
    require_g(g)
    law = relations or package_relations()
    return g + 2.0 * log2(law.definition_magnification)
