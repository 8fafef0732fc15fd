"""The use case that examines a laboratory's table of crystal orientations."""

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import (
    MapPlace,
    PlaceComparison,
    SyntheticMap,
    draw_synthetic_map,
    match_listed_places,
    match_places_in_map,
    measure_grain_list,
    measure_orientation_map,
)
from strandproof.records.orientation import (
    AngleMeaning,
    Axis,
    FrameKnowledge,
    GrainTable,
    OrientationRules,
    OrientationTable,
    PlaceTable,
    PointOnMap,
)
from strandproof.records.orientation_results import (
    FibreTexture,
    GrainListResult,
    OrientationMapResult,
    PlaceMatch,
)
from strandproof.storage import (
    angle_remark,
    encode_orientation_table,
    read_orientation_table,
    write_output_file,
)

_SEED = 20315


@dataclass(frozen=True, slots=True, kw_only=True)
class OrientationQuestion:
    """What a table of orientations is asked.

    Parameters
    ----------
    meaning : {"passive", "active"}
        How the laboratory's Bunge angles are meant.
    rules : OrientationRules
        What counts as a boundary, a grain.
    places : tuple of PointOnMap
        Places of a map to compare with the first of them.
    place_radius_um : float or None
        Radius of such a place [um]; None takes three steps.
    tolerance_deg : float
        Largest angle between places that match [deg].
    frame : {"shared", "axis"}
        What places have in common.
    texture : FibreTexture or None
        A texture known for such strands.
    stated_step_um, stated_share_indexed : float or None
        Step [um] and share indexed, 0 to 1, of the map behind a list of grains
        or places, which does not hold them.
    """

    meaning: AngleMeaning
    rules: OrientationRules = field(default_factory=OrientationRules)
    places: tuple[PointOnMap, ...] = ()
    place_radius_um: float | None = None
    tolerance_deg: float = 5.0
    frame: FrameKnowledge = "shared"
    texture: FibreTexture | None = None
    stated_step_um: float | None = None
    stated_share_indexed: float | None = None

    @property
    def axis(self) -> Axis:
        """Direction of the strand's axis in the table."""
        return self.rules.axis


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OrientationAnswer:
    """What a table of orientations gave.

    Parameters
    ----------
    table : OrientationTable, GrainTable or PlaceTable
        The table as read.
    question : OrientationQuestion
        What was asked.
    found_in_map : OrientationMapResult or None
        For a map.
    found_in_list : GrainListResult or None
        For a list of grains.
    match : PlaceMatch or None
        Where places were compared.
    """

    table: OrientationTable | GrainTable | PlaceTable
    question: OrientationQuestion
    found_in_map: OrientationMapResult | None = None
    found_in_list: GrainListResult | None = None
    match: PlaceMatch | None = None


def examine_orientations(
    path: Path, question: OrientationQuestion
) -> OrientationAnswer:
    """Read a table of orientations and measure what it allows.

    Parameters
    ----------
    path : Path
        CSV of points, grains or places.
    question : OrientationQuestion
        What it is asked.

    Returns
    -------
    OrientationAnswer
        Everything found.

    Raises
    ------
    ParameterError
        If the question does not fit the table (places of a map asked of a list,
        a step stated for a map, a texture without places to compare), a stated
        step or share is none, or the table's own remark contradicts the meaning
        of the angles.
    """
    _require(question)
    table = read_orientation_table(path, meaning=question.meaning)
    _refuse_contradiction(table.notes, question.meaning)
    if isinstance(table, OrientationTable):
        return _of_map(table, question)
    if isinstance(table, GrainTable):
        _refuse_texture(question)
    if question.places:
        raise ParameterError(
            "places",
            question.places,
            allowed="none for a list of grains or places",
            remedy="Places are looked up in a map; a list of places is compared "
            "as it is.",
        )
    if isinstance(table, GrainTable):
        found = measure_grain_list(table, rules=question.rules)
        return OrientationAnswer(table=table, question=question, found_in_list=found)
    match = match_listed_places(
        table, _comparison(question), generator=np.random.default_rng(_SEED)
    )
    return OrientationAnswer(table=table, question=question, match=match)


def write_example_orientations(path: Path) -> None:
    """Write the synthetic map of the demo's second laboratory.

    Parameters
    ----------
    path : Path
        The file; an existing one is never replaced.

    Notes
    -----
    Strand DQV-835 as Fellwater would map it: 200 by 40 um at 0.5 um, recrystallised
    grains with twins, 97 of 100 points indexed. Drawn, not measured; its first
    line says so.
    """
    drawn = draw_synthetic_map(SyntheticMap(), seed=_SEED)
    write_output_file(path, encode_orientation_table(drawn.table))


def _of_map(
    table: OrientationTable, question: OrientationQuestion
) -> OrientationAnswer:
    if question.stated_step_um is not None or question.stated_share_indexed is not None:
        raise ParameterError(
            "stated_step_um, stated_share_indexed",
            (question.stated_step_um, question.stated_share_indexed),
            allowed="none for a map, which holds them itself",
        )
    if not question.places:
        _refuse_texture(question)
    found = measure_orientation_map(table, rules=question.rules)
    match = None
    if question.places:
        radius = question.place_radius_um or 3.0 * found.coverage.step_um
        places = [
            MapPlace(
                name=f"P{number}", x_um=point.x_um, y_um=point.y_um, radius_um=radius
            )
            for number, point in enumerate(question.places, start=1)
        ]
        match = match_places_in_map(
            table,
            places,
            _comparison(question),
            generator=np.random.default_rng(_SEED),
        )
    return OrientationAnswer(
        table=table, question=question, found_in_map=found, match=match
    )


def _refuse_texture(question: OrientationQuestion) -> None:
    if question.texture is not None:
        raise ParameterError(
            "texture",
            question.texture,
            allowed="none where no places are compared",
            remedy="Give two places of the map, or leave the fibres out.",
        )


def _comparison(question: OrientationQuestion) -> PlaceComparison:
    return PlaceComparison(
        tolerance_deg=question.tolerance_deg,
        frame=question.frame,
        axis=question.axis,
        texture=question.texture,
    )


def _refuse_contradiction(notes: tuple[str, ...], meaning: AngleMeaning) -> None:
    other: AngleMeaning = "active" if meaning == "passive" else "passive"
    if angle_remark(other) in notes:
        raise ParameterError(
            "angles",
            meaning,
            allowed=f"{other}, as the table's own remark says",
            remedy="Ask the laboratory; correct the remark if it is wrong.",
        )


def _require(question: OrientationQuestion) -> None:
    step, share = question.stated_step_um, question.stated_share_indexed
    if step is not None and not step > 0.0:
        raise ParameterError("stated_step_um", step, allowed="above 0 [um]")
    if question.place_radius_um is not None and not question.places:
        raise ParameterError(
            "place_radius_um",
            question.place_radius_um,
            allowed="none without places of a map",
        )
    if share is not None and not 0.0 < share <= 1.0:
        raise ParameterError("stated_share_indexed", share, allowed="above 0, up to 1")
