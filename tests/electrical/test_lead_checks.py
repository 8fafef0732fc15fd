import pytest
from electrical_examples import temperature
from four_wire_examples import COLD_OHM, wire_series

from strandproof.electrical import check_leads, evaluate_series
from strandproof.records.electrical import LeadChecks, LeadFindings, SeriesResult


@pytest.fixture(scope="module")
def found() -> SeriesResult:
    return evaluate_series(wire_series(noise_v=1e-6), temperature=temperature())


def flags(findings: LeadFindings) -> list[str]:
    return [flag.name for flag in findings.flags]


def test_no_check_is_said(found: SeriesResult) -> None:
    for none in (None, LeadChecks()):
        assert flags(check_leads(found, none)) == ["leads_not_checked"]


def test_good_leads_pass_every_check(found: SeriesResult) -> None:
    good = LeadChecks(
        two_wire_ohm=COLD_OHM + 0.6,
        compliance_v=5.0,
        swapped_ohm=COLD_OHM,
        zero_current_v=3e-6,
    )
    findings = check_leads(found, good)
    assert findings.flags == ()
    assert len(findings.sentences) == 4
    assert findings.contacts_ohm == pytest.approx(0.6, abs=1e-4)


@pytest.mark.parametrize(
    ("checks", "flag"),
    [
        (LeadChecks(two_wire_ohm=1.70), "two_wire_below_four_wire"),
        (LeadChecks(two_wire_ohm=60.0, compliance_v=5.0), "compliance_exceeded"),
        (LeadChecks(swapped_ohm=1.75), "swapped_leads_differ"),
        (LeadChecks(zero_current_v=-30e-6), "thermal_voltage_unsteady"),
    ],
)
def test_each_check_can_fail(
    found: SeriesResult, checks: LeadChecks, flag: str
) -> None:
    assert flags(check_leads(found, checks)) == [flag]
