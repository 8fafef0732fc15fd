"""The packaged network: its size, its planes, the same answer twice."""

from importlib.resources import files

import numpy as np

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.maps import structure_maps
from strandproof.micrograph.learned.network import answers
from strandproof.micrograph.render import (
    GrainPopulation,
    SectionParameters,
    StrandLayout,
    render_section,
)


def test_file_is_at_most_8_megabytes() -> None:
    path = files("strandproof.micrograph.learned") / "data" / "structure.onnx"
    assert len(path.read_bytes()) <= 8_000_000


def test_answer_has_every_plane_and_is_the_same_twice() -> None:
    seen = np.random.default_rng(1).integers(0, 256, (3, 64, 96), np.uint8)
    found = answers(seen)
    assert found.shape == (len(planes.PLANES), 64, 96)
    assert found.dtype == np.uint8
    assert np.array_equal(found, answers(seen))


def test_planes_stand_in_the_order_of_their_names() -> None:
    """On a synthetic section each plane is high where its name says."""
    section = render_section(
        SectionParameters(
            population=GrainPopulation(family="equiaxed", mean_intercept_um=6.0),
            layout=StrandLayout(arrangement="round", width_um=50),
            um_per_px=0.2,
            shape=(320, 320),
        ),
        seed=5,
    )
    found = structure_maps(section.as_bytes()).astype(float) / 255
    metal = section.strand_labels > 0
    assert found[planes.METAL][metal].mean() > 0.9
    assert found[planes.METAL][~metal].mean() < 0.1
    boundary = found[planes.GRAIN_BOUNDARY]
    assert boundary[section.boundary].mean() > 0.6
    assert boundary[~section.boundary].mean() < 0.1
    for quiet in (planes.TWIN_BOUNDARY, planes.UNREADABLE, planes.STRAND_CONTACT):
        assert found[quiet].mean() < 0.05, planes.PLANES[quiet]
