import strandproof.grainsize as package

# Other modules of the part add names of their own; these must stay.
NAMES = {
    "SCHEMA_NAME",
    "SCHEMA_VERSION",
    "GrainSizeRelations",
    "count_grains",
    "counting_rules",
    "g_of_grains_per_square_inch",
    "grains_per_area",
    "grains_per_mm2_of",
    "grains_per_square_inch_of",
    "intercept_g",
    "intercept_g_estimate",
    "macro_g",
    "magnification_shift",
    "mean_intercept_mm_of",
    "mean_over_level",
    "measure",
    "measurement_as_plain_data",
    "metric_index",
    "package_relations",
    "planimetric_g",
    "planimetric_g_estimate",
    "relations_from_table",
}


def test_public_names_stay() -> None:
    assert set(package.__all__) >= NAMES


def test_every_public_name_is_there() -> None:
    assert all(hasattr(package, name) for name in package.__all__)
