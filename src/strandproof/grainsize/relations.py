"""Relations between G, grains per area and mean lineal intercept.

G is defined by grains counted in an area; every other form follows from that or
from a convention. The constants come from the table ``grain_size_relations``, so
that each carries its source and status. Published charts and web pages with other
numbers are often wrong and are no source here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import isfinite, log10
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.tables import TableRow, package_table, table_value

RelationForm = Literal["e112", "exact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainSizeRelations:
    """Constants of the relations, and which form of them they are.

    Parameters
    ----------
    form : {"e112", "exact"}
        ``"e112"``: the rounded constants as ASTM E112 is transcribed to print
        them. ``"exact"``: computed from the definition. They differ by 0.0002
        (planimetric) and 0.0003 (intercept) in G.
    planimetric_slope, planimetric_offset : float
        G = slope log10(N_A) + offset, N_A in grains per mm^2 at 1x.
    intercept_slope, intercept_offset : float
        G = slope log10(l) + offset, l in mm.
    metric_grains_at_zero : float
        Grains per mm^2 at metric index 0.
    definition_area_mm2 : float
        Area in which 2^(G-1) grains are counted [mm^2].
    definition_magnification : float
        Magnification at which they are counted.
    """

    form: RelationForm
    planimetric_slope: float
    planimetric_offset: float
    intercept_slope: float
    intercept_offset: float
    metric_grains_at_zero: float
    definition_area_mm2: float
    definition_magnification: float


def relations_from_table(
    table: Mapping[str, TableRow], *, form: RelationForm = "e112"
) -> GrainSizeRelations:
    """Constants out of a table with the keys of ``grain_size_relations``.

    Parameters
    ----------
    table : Mapping from str to TableRow
        The table.
    form : {"e112", "exact"}
        Which of the two forms.

    Returns
    -------
    GrainSizeRelations
        The constants.

    Examples
    --------
    >>> from strandproof.tables import package_table
    >>> relations_from_table(package_table("grain_size_relations")).planimetric_offset
    -2.954
    """
    return GrainSizeRelations(
        form=form,
        planimetric_slope=table_value(table, f"planimetric.{form}.slope"),
        planimetric_offset=table_value(table, f"planimetric.{form}.offset"),
        intercept_slope=table_value(table, f"intercept.{form}.slope"),
        intercept_offset=table_value(table, f"intercept.{form}.offset"),
        metric_grains_at_zero=table_value(table, "metric.grains_at_zero"),
        definition_area_mm2=table_value(table, "definition.area"),
        definition_magnification=table_value(table, "definition.magnification"),
    )


@cache
def package_relations(form: RelationForm = "e112") -> GrainSizeRelations:
    """Constants of the table that ships with the package.

    Parameters
    ----------
    form : {"e112", "exact"}
        Which of the two forms.

    Returns
    -------
    GrainSizeRelations
        The constants; ``"e112"`` is what every function here uses by default.

    Examples
    --------
    >>> package_relations("exact").planimetric_offset
    -2.9541963103868754
    """
    return relations_from_table(package_table("grain_size_relations"), form=form)


def planimetric_g(
    grains_per_mm2: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """ASTM grain size number from grains counted per area.

    Parameters
    ----------
    grains_per_mm2 : float
        Grains per area of the section [1/mm^2] at 1x; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        G; finer grains have a larger number, one step doubles the count.

    Raises
    ------
    ParameterError
        If the count is not a finite number above 0.

    Notes
    -----
    G = 3.321928 log10(N_A) - 2.954, ASTM E112 Table 6 and Annex A1, read
    (secondary). By the definition the offset is -log2(7.75) = -2.954196.

    References
    ----------
    ASTM E112, Standard Test Methods for Determining Average Grain Size.

    Examples
    --------
    >>> round(planimetric_g(992.0), 2)
    7.0
    """
    require_positive("grains_per_mm2", grains_per_mm2)
    law = relations or package_relations()
    return law.planimetric_slope * log10(grains_per_mm2) + law.planimetric_offset


def grains_per_mm2_of(
    g: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """Grains per area that belong to a planimetric G; inverse of `planimetric_g`.

    Parameters
    ----------
    g : float
        ASTM grain size number.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        Grains per area [1/mm^2] at 1x.

    Raises
    ------
    ParameterError
        If G is not a number between -300 and 300.

    Examples
    --------
    >>> round(grains_per_mm2_of(7.0))
    992
    """
    require_g(g)
    law = relations or package_relations()
    exponent = (g - law.planimetric_offset) / law.planimetric_slope
    return float(10.0**exponent)


def intercept_g(
    mean_intercept_mm: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """ASTM grain size number from the mean lineal intercept.

    It differs from `planimetric_g` of the same structure by construction: the
    two agree only for grains of one ideal kind, so neither is computed from the
    other.

    Parameters
    ----------
    mean_intercept_mm : float
        Mean lineal intercept [mm] at 1x; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        G; half the length raises it by 2.

    Raises
    ------
    ParameterError
        If the length is not a finite number above 0.

    Notes
    -----
    G = -6.643856 log10(l) - 3.288, ASTM E112 Annex A1, read (secondary). With
    l = 0.32 mm at G = 0 (from memory) the offset is 2 log2(0.32) = -3.287712.

    References
    ----------
    ASTM E112, Standard Test Methods for Determining Average Grain Size.

    Examples
    --------
    >>> round(intercept_g(0.008444), 3)
    10.488
    """
    require_positive("mean_intercept_mm", mean_intercept_mm)
    law = relations or package_relations()
    return law.intercept_slope * log10(mean_intercept_mm) + law.intercept_offset


def mean_intercept_mm_of(
    g: float, *, relations: GrainSizeRelations | None = None
) -> float:
    """Mean lineal intercept that belongs to an intercept G.

    Parameters
    ----------
    g : float
        ASTM grain size number.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    float
        Mean lineal intercept [mm] at 1x.

    Raises
    ------
    ParameterError
        If G is not a number between -300 and 300.

    Examples
    --------
    >>> round(1000 * mean_intercept_mm_of(8.0), 1)
    20.0
    """
    require_g(g)
    law = relations or package_relations()
    exponent = (g - law.intercept_offset) / law.intercept_slope
    return float(10.0**exponent)


def require_positive(parameter: str, given: float) -> None:
    """Refuse a number that is not finite and above 0.

    Parameters
    ----------
    parameter : str
        Name of the parameter, for the message.
    given : float
        What the caller gave.

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.
    """
    if not isfinite(given) or given <= 0:
        raise ParameterError(parameter, given, allowed="a finite number above 0")


def require_g(g: float) -> None:
    """Refuse a grain size number that no structure can have.

    Parameters
    ----------
    g : float
        What the caller gave.

    Raises
    ------
    ParameterError
        If it is not a number between -300 and 300.
    """
    # No structure comes near these; they keep every result finite.
    if not abs(g) <= 300:
        raise ParameterError("g", g, allowed="a number between -300 and 300")
