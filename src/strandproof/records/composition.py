"""What a paper states about the composition of copper, as it states it."""

from dataclasses import dataclass
from enum import StrEnum
from math import isfinite
from typing import Literal

from strandproof.errors import ParameterError

ContentState = Literal["value", "below", "not_measured"]

_STATES: tuple[ContentState, ...] = ("value", "below", "not_measured")

_IMPURITIES = """
H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Zn Ga Ge As
Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Pd Ag Cd In Sn Sb Te I Xe Cs Ba La Ce Pr Nd Pm Sm
Eu Gd Tb Dy Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At Rn Fr Ra Ac Th Pa U
"""
_SYMBOLS = frozenset(_IMPURITIES.split())


class Basis(StrEnum):
    """What a statement of purity counts as an impurity."""

    METALS_ONLY = "metals_only"
    GASES_IN = "gases_in"
    BY_DIFFERENCE = "by_difference"
    NOT_STATED = "not_stated"


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementContent:
    """What a certificate says about one element.

    Parameters
    ----------
    symbol : str
        Chemical symbol of an impurity, for example ``"Fe"``; not copper.
    state : {"value", "below", "not_measured"}
        A number, a limit below which it lies, or a mention without either.
    ppm : float or None
        The number or the limit [ppm by mass], 0 to 1e6; None where not measured.
    standard_uncertainty : float or None
        Standard uncertainty of a number [ppm by mass]; None where none is stated.

    Raises
    ------
    ParameterError
        If the symbol is none of an impurity, or the numbers do not fit the state.
    """

    symbol: str
    state: ContentState
    ppm: float | None = None
    standard_uncertainty: float | None = None

    def __post_init__(self) -> None:
        if self.symbol not in _SYMBOLS:
            raise ParameterError(
                "element",
                self.symbol,
                allowed="the symbol of an impurity of copper, for example Fe",
                remedy="The copper content itself is a statement of its own.",
            )
        if self.state not in _STATES:
            raise ParameterError("state", self.state, allowed=", ".join(_STATES))
        self._check_numbers()

    def _check_numbers(self) -> None:
        content = f"content of {self.symbol}"
        if self.state == "not_measured":
            if self.ppm is not None:
                raise ParameterError(content, self.ppm, allowed="none: not measured")
            return
        lowest = "above 0" if self.state == "below" else "0 or above"
        allowed = f"a number of ppm, {lowest} and at most 1e6"
        ppm = self.ppm
        if ppm is None or not isfinite(ppm) or not 0 <= ppm <= 1e6:
            raise ParameterError(content, ppm, allowed=allowed)
        if self.state == "below" and ppm == 0:
            raise ParameterError(content, ppm, allowed=allowed)
        u = self.standard_uncertainty
        if u is not None and (not isfinite(u) or u < 0):
            raise ParameterError("standard uncertainty", u, allowed="0 ppm or above")


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """A certificate of analysis as it was entered; nothing is judged here.

    Parameters
    ----------
    item : str
        What was analysed, for example ``"8 mm rod"``.
    contents : tuple of ElementContent
        One for each element named; one at least.
    lot : str
        Heat or lot; empty where none is stated.
    issuer, accreditation, method, dated : str
        Who issued it, under which accreditation, by which method, when; empty where
        it does not say.
    basis : Basis
        What the stated purity counts.
    copper_percent : float or None
        Copper as stated [% by mass], above 0 to 100; None where it states none.
    nines : str
        Nines as stated, for example ``"4N7"``; empty where it states none.
    copper_includes : tuple of str
        Elements that it counts as copper, for example ``("Ag",)``.
    grade : str
        Grade as stated, for example ``"C10100"``; empty where it states none.

    Raises
    ------
    ParameterError
        If the item is not named, no element is, one is named twice, or the copper
        content is no percentage.
    """

    item: str
    contents: tuple[ElementContent, ...]
    lot: str = ""
    issuer: str = ""
    accreditation: str = ""
    method: str = ""
    dated: str = ""
    basis: Basis = Basis.NOT_STATED
    copper_percent: float | None = None
    nines: str = ""
    copper_includes: tuple[str, ...] = ()
    grade: str = ""

    def __post_init__(self) -> None:
        if not self.item.strip():
            raise ParameterError(
                "item", self.item, allowed="what was analysed, for example 8 mm rod"
            )
        if not self.contents:
            raise ParameterError(
                "elements",
                self.contents,
                allowed="one element or more",
                remedy="A purity without a list of elements is a claim; enter it so.",
            )
        symbols = [each.symbol for each in self.contents]
        twice = sorted({each for each in symbols if symbols.count(each) > 1})
        if twice:
            raise ParameterError("elements", twice, allowed="each element once")
        copper = self.copper_percent
        if copper is not None and not 0 < copper <= 100:
            raise ParameterError(
                "copper", copper, allowed="above 0 and at most 100 % by mass"
            )

    @property
    def measured(self) -> tuple[ElementContent, ...]:
        """Contents with a number or a limit, in the certificate's order."""
        return tuple(each for each in self.contents if each.state != "not_measured")

    def content(self, symbol: str) -> ElementContent | None:
        """Give what is said about an element.

        Parameters
        ----------
        symbol : str
            Chemical symbol.

        Returns
        -------
        ElementContent or None
            None where it has no number and no limit.
        """
        return next((one for one in self.measured if one.symbol == symbol), None)
