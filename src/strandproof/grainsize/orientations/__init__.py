"""Crystal orientations: boundaries, grains, twin relations, matches at places.

Takes tables of Bunge angles whose meaning is stated; cubic crystals only. Imports
`records`, `quantity` and `errors`.

- `measure_orientation_map`, `measure_grain_list`: everything about one table;
- `match_places_in_map`, `match_listed_places`, `place_chances`: one orientation at
  distant places, and how often that happens by chance;
- `quaternions_of_bunge_angles`, `disorientations_deg` and kin: the algebra;
- `draw_synthetic_map`: synthetic maps with exact truth.
"""

from strandproof.grainsize.orientations.axis_direction import (
    axis_departures_deg,
    axis_match_chance,
)
from strandproof.grainsize.orientations.comparison import (
    PlaceComparison,
    place_chances,
)
from strandproof.grainsize.orientations.cubic import (
    cubic_rotations,
    disorientations_deg,
    mean_orientation,
)
from strandproof.grainsize.orientations.grain_list import measure_grain_list
from strandproof.grainsize.orientations.map_measurement import (
    measure_orientation_map,
)
from strandproof.grainsize.orientations.match_chance import (
    fibre_match_chance,
    random_match_chance,
    sharp_fibre_match_chance,
)
from strandproof.grainsize.orientations.places import (
    MapPlace,
    match_listed_places,
    match_places_in_map,
)
from strandproof.grainsize.orientations.random_pairs import (
    LARGEST_DISORIENTATION_DEG,
    random_disorientation_density,
    random_share_below,
)
from strandproof.grainsize.orientations.rotations import (
    quaternions_of_bunge_angles,
    relative_rotations,
)
from strandproof.grainsize.orientations.synthetic import (
    DrawnMap,
    SyntheticMap,
    draw_synthetic_map,
)
from strandproof.grainsize.orientations.twin_relation import (
    brandon_limit_deg,
    twin_departures_deg,
)

__all__ = [
    "LARGEST_DISORIENTATION_DEG",
    "DrawnMap",
    "MapPlace",
    "PlaceComparison",
    "SyntheticMap",
    "axis_departures_deg",
    "axis_match_chance",
    "brandon_limit_deg",
    "cubic_rotations",
    "disorientations_deg",
    "draw_synthetic_map",
    "fibre_match_chance",
    "match_listed_places",
    "match_places_in_map",
    "mean_orientation",
    "measure_grain_list",
    "measure_orientation_map",
    "place_chances",
    "quaternions_of_bunge_angles",
    "random_disorientation_density",
    "random_match_chance",
    "random_share_below",
    "relative_rotations",
    "sharp_fibre_match_chance",
    "twin_departures_deg",
]
