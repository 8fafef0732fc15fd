"""One example of every kind of entry, from the invented case H7 of the brief.

In an order in which each names only what came before it.
"""

import hashlib
from datetime import UTC, datetime
from pathlib import Path

from strandproof.records.entries import (
    BlindListOpened,
    BlindListSealed,
    Calibration,
    Capture,
    CaptureSearch,
    Case,
    CaseRecord,
    Challenge,
    Claim,
    ClaimKind,
    ConductorType,
    Control,
    Correction,
    Cost,
    Deviation,
    Disclosure,
    Disposal,
    Document,
    Entry,
    ErrorPlace,
    Exhibit,
    FlagAnswer,
    GapExplanation,
    HandedOutPicture,
    HandlingEvent,
    HandOut,
    HandOutReturned,
    HandOver,
    Hypothesis,
    Layer,
    LetterSent,
    Likelihood,
    MeasuredValue,
    Measurement,
    MeasurementResult,
    Micrograph,
    Observation,
    OwnStatement,
    Permission,
    PlanLock,
    Portion,
    PreparationStep,
    PublishedVersion,
    Purchase,
    Reading,
    ReadingLock,
    ReadingMark,
    Redaction,
    Reply,
    Seal,
    Section,
    Sentence,
    SpeakerRole,
    Specimen,
    Weighing,
    WeighingPair,
)
from strandproof.records.entries.claims import ClaimReading
from strandproof.storage.case_writing import (
    Addition,
    CaseWriter,
    Original,
    create_case,
)

FILE_CONTENT = b"words on a hang tag, photographed\n"
FILE_SHA256 = hashlib.sha256(FILE_CONTENT).hexdigest()
ZEROS = "0" * 64


def moment(month: int, day: int, hour: int = 12, minute: int = 0) -> datetime:
    """Give a moment of the year 2031, in UTC."""
    return datetime(2031, month, day, hour, minute, tzinfo=UTC)


CASE = Case(id="H7", title="The Tern earphone lead", owner="R")

_CLAIMS: tuple[CaseRecord, ...] = (
    Capture(
        id="tag",
        medium="hang tag in the bag",
        place="bag of exhibit E1",
        captured_at=moment(4, 2),
        captured_by="R",
        file_sha256=FILE_SHA256,
    ),
    Claim(
        id="K1",
        words="cast long-crystal copper, one crystal per 100 m",
        speaker_role=SpeakerRole.MAKER,
        speaker="Wexcombe Twine Works",
        medium="hang tag",
        said_at=moment(4, 2),
        kinds=(ClaimKind.CASTING_ROUTE, ClaimKind.CRYSTAL_STATE),
        readings=(
            ClaimReading(
                words="Each finished core strand is one crystal over 100 m.",
                kind=ClaimKind.CRYSTAL_STATE,
            ),
        ),
        captures=("tag",),
    ),
    CaptureSearch(
        id="tag-search-1",
        capture="tag",
        looked_for=("one crystal per 100 m", "26 AWG"),
        found=("one crystal per 100 m",),
        method="read",
        searched_at=moment(4, 2),
        searched_by="R",
    ),
    Document(
        id="mill",
        title="Mill certificate, heat 77-B",
        issuer="Wexcombe Twine Works",
        file_sha256=FILE_SHA256,
        item="8 mm rod",
        bears_on=(ClaimKind.COMPOSITION,),
        does_not_bear_on=(ClaimKind.CRYSTAL_STATE,),
    ),
    OwnStatement(
        id="column",
        words="The cores are 26 AWG.",
        place="R's column",
        said_at=moment(1, 15),
        repeats_claim="K1",
        correction_due=True,
    ),
    Disclosure(
        id="commission",
        person="R",
        kind="money",
        statement="61.40 commission from a link in the column, given to a charity.",
        amount=61.4,
        currency="EUR",
        declared_at=moment(3, 20),
    ),
    Cost(
        id="bench",
        purpose="laboratory fee",
        amount=380,
        currency="EUR",
        paid_by="R",
        spent_at=moment(5, 30),
    ),
)

_EXHIBITS: tuple[CaseRecord, ...] = (
    Purchase(
        id="P1",
        obtained="bought_anonymously",
        seller="Lantern Row",
        product="Tern earphone lead",
        received_at=moment(4, 2),
    ),
    Exhibit(
        id="E1",
        description="Tern earphone lead",
        purchase="P1",
        provenance="bought at Lantern Row",
        lot_mark="3107",
        received_at=moment(4, 2),
        received_by="R",
        condition="bag closed",
        length_m=1.3,
        mass_g=8.84,
    ),
    Permission(
        id="names",
        person="Ostrea College Bench",
        subject="naming of students",
        granted="no",
        given_at=moment(4, 20),
        concerns=("exhibit/E1",),
    ),
    Portion(
        id="E1-maker",
        exhibit="E1",
        purpose="maker",
        length_m=0.325,
        cut_at=moment(4, 3),
        cut_by="R",
    ),
    Disposal(
        id="E1-offcut",
        items=("exhibit/E1",),
        fate="lost",
        reason="an offcut swept away with the waste",
        at=moment(4, 3),
        by="R",
    ),
    Seal(
        id="seal-1",
        seal_number="0071",
        on="portion/E1-maker",
        event="applied",
        at=moment(4, 3),
        by="R",
    ),
    Layer(id="E1-sheath", exhibit="E1", position=1, material="braid, not identified"),
    ConductorType(
        id="E1-core",
        exhibit="E1",
        description="core",
        conductors=4,
        strands=19,
        strand_diameter=MeasuredValue(
            value=0.08, unit="mm", standard_uncertainty=0.0005
        ),
    ),
    Specimen(
        id="E1-s1",
        exhibit="E1",
        portion="E1-maker",
        conductor_type="E1-core",
        taken_from="core strand drawn by random number",
        taken_at=moment(4, 5),
        taken_by="R",
        blind_code="DQV-835",
    ),
    HandOver(
        id="to-bench",
        items=("specimen/E1-s1",),
        giver="R",
        receiver="A1",
        given_at=moment(5, 6, 16, 40),
        received_at=moment(5, 8, 9, 15),
        condition="bag closed",
        seal="seal-1",
    ),
    HandlingEvent(
        id="mounting",
        items=("specimen/E1-s1",),
        event="cold mounting",
        highest_temperature_c=41.5,
        duration_s=3600,
        at=moment(5, 9),
        by="A1",
    ),
    GapExplanation(
        id="G1-1",
        gap="G1",
        items=("specimen/E1-s1",),
        gap_from=moment(5, 6, 16, 40),
        gap_to=moment(5, 8, 9, 15),
        explanation="sent by parcel, kept over a holiday",
        explained_by="R",
        explained_at=moment(5, 10),
    ),
    FlagAnswer(
        id="F1-1",
        flag="F1",
        event="handling_event/mounting",
        answer="the bent single crystal was mounted alike and showed nothing",
        answered_by="A1",
        answered_at=moment(5, 11),
    ),
)

_LABORATORY: tuple[CaseRecord, ...] = (
    Section(
        id="E1-s1-L",
        specimen="E1-s1",
        direction="longitudinal",
        mount="m1",
        made_at=moment(5, 9),
        made_by="A1",
    ),
    PreparationStep(
        id="etch-1",
        sections=("E1-s1-L",),
        step="etch",
        order=6,
        description="first etch step by the laboratory's own procedure",
        at=moment(5, 10),
        by="A1",
        picture_sha256=FILE_SHA256,
    ),
    Control(
        id="single-1",
        specimen="E1-s1",
        kind="single_crystal",
        known_by="diffraction",
        informs=("false_boundary",),
        mount="m1",
    ),
    Calibration(
        id="stage",
        pixel_size=MeasuredValue(value=0.1726, unit="um", standard_uncertainty=0.0004),
        method="stage scale, ten divisions of 10 um, five times",
        made_at=moment(5, 10),
        made_by="A1",
        readings_um=(0.1723, 0.1729, 0.1726, 0.1722, 0.1730),
    ),
    Micrograph(
        id="f1",
        section="E1-s1-L",
        file_sha256=FILE_SHA256,
        width_px=1800,
        height_px=1200,
        field="1 of 5",
        chosen="random number",
        calibration="stage",
        taken_at=moment(5, 10),
        taken_by="A1",
    ),
    Reading(
        id="f1-A2",
        reads="micrograph/f1",
        reader="A2",
        blind=True,
        verdict="boundaries",
        counting_rules=("line end inside a grain counts one half",),
        line_length_px=600,
        marks=(ReadingMark(line=1, position_px=(10.5, 20), feature="boundary"),),
        counts={"boundary": 12, "twin": 5, "scratch": 2, "uncertain": 1},
        read_at=moment(5, 12),
    ),
    ReadingLock(
        id="f1-A2", reading="f1-A2", locked_at=moment(5, 12, 13), locked_by="A2"
    ),
    Measurement(
        id="f1-size",
        measures="micrograph/f1",
        method="lineal intercept",
        method_version="1",
        results=(
            MeasurementResult(
                name="mean_intercept",
                value=MeasuredValue(
                    value=8.444,
                    unit="um",
                    standard_uncertainty=0.182,
                    degrees_of_freedom=2,
                    lower=7.66,
                    upper=9.23,
                    confidence=0.95,
                    interval_method="t interval by lead",
                ),
            ),
        ),
        verdict="poly",
        bears_on=(ClaimKind.CRYSTAL_STATE,),
        does_not_bear_on=(ClaimKind.CASTING_ROUTE,),
        measured_at=moment(5, 12),
        measured_by="A1",
    ),
)

_REASONING: tuple[CaseRecord, ...] = (
    Hypothesis(
        id="X1",
        statement="The finished strand has crystals as long as claimed.",
        kind=ClaimKind.CRYSTAL_STATE,
        speaks_for=("K1",),
    ),
    Hypothesis(
        id="X4",
        statement="Ordinary oxygen-free copper, drawn and annealed.",
        kind=ClaimKind.CRYSTAL_STATE,
    ),
    PlanLock(
        id="plan-1",
        claims=("K1",),
        primary_reading="boundaries on longitudinal sections",
        stop_rule="all fields read",
        would_change_my_mind="no boundary in any long section beside a sound control",
        hypotheses=("X1", "X4"),
        plan_sha256=FILE_SHA256,
        locked_at=moment(3, 25),
        locked_by="R",
    ),
    Deviation(
        id="D1",
        plan="plan-1",
        kind="deviation",
        what="face of E2-s3-T dropped",
        reason="over-etched",
        results_seen=True,
        decided_at=moment(5, 20),
        decided_by="R",
    ),
    BlindListSealed(
        id="list-1",
        list_sha256=ZEROS,
        codes=("DQV-835",),
        sealed_at=moment(4, 10),
        sealed_by="C",
    ),
    BlindListOpened(
        id="list-1",
        sealed_list="list-1",
        assignments={"DQV-835": "specimen/E1-s1"},
        salt_hex=ZEROS,
        list_file_sha256=FILE_SHA256,
        opened_at=moment(5, 25),
        opened_by="C",
    ),
    HandOut(
        id="to-A2",
        reader="A2",
        seal_sha256=FILE_SHA256,
        pictures=(HandedOutPicture(name="DQV-835-1", sha256=ZEROS),),
        order_seed=7,
        made_at=moment(5, 11),
        made_by="C",
    ),
    HandOutReturned(
        id="to-A2",
        hand_out="to-A2",
        file_sha256=FILE_SHA256,
        readings=("f1-A2",),
        returned_at=moment(5, 13),
        taken_by="C",
    ),
    Observation(
        id="O1",
        statement="Many equiaxed grains on every long section.",
        evidence=("measurement/f1-size",),
        cables=3,
        strands=9,
        sections=9,
        fields=45,
        method="etched section, lineal intercept",
        bears_on=(ClaimKind.CRYSTAL_STATE,),
    ),
    Weighing(
        id="W1",
        observation="O1",
        likelihoods=(
            Likelihood(
                hypothesis="X1",
                best=0.005,
                lower=0,
                upper=0.12,
                status="judgement",
                source="false reading 0.3, mix-up 0.1, batch fault 0.1 of 100",
            ),
            Likelihood(
                hypothesis="X4",
                best=0.95,
                lower=0.9,
                upper=0.99,
                status="judgement",
                source="seen 95 of 100",
            ),
        ),
        pairs=(
            WeighingPair(
                first="X4",
                second="X1",
                best_ratio=190,
                lower_ratio=7.5,
                upper_ratio=None,
                controls_ratio=1.8,
                words="moderately strong, judgement; controls alone: no support",
            ),
        ),
        claim="K1",
        result="contradicted",
        weighed_at=moment(6, 1),
        weighed_by="R",
    ),
)

_PUBLICATION: tuple[CaseRecord, ...] = (
    Sentence(
        id="S1",
        words="In the nine strands examined we found very many crystals.",
        kind="measured",
        evidence=("measurement/f1-size",),
        number=1,
    ),
    LetterSent(
        id="L1",
        to="Wexcombe Twine Works",
        role="maker",
        sentences=("S1",),
        channels=("registered letter", "mail"),
        sent_at=moment(7, 1),
        deadline=moment(7, 15),
    ),
    Reply(
        id="R1",
        letter="L1",
        author="Wexcombe Twine Works",
        words="The rod was cast in a heated mould.",
        received_at=moment(7, 20),
        on_sentences=("S1",),
    ),
    Challenge(
        id="9",
        on="sentence/S1",
        words="field 12: twin counted",
        raised_by="V",
        raised_at=moment(8, 3),
    ),
    PublishedVersion(
        id="v1.0",
        version="1.0",
        published_at=moment(7, 21),
        report_sha256=FILE_SHA256,
        head_sha256=ZEROS,
    ),
    Correction(
        id="C1",
        corrects="own_statement/column",
        was="The cores are 26 AWG.",
        is_right="Each core has about a quarter less copper than 26 AWG.",
        wrong_since=moment(1, 15),
        found_by="R",
        corrected_at=moment(7, 21),
    ),
    ErrorPlace(id="C1-column", correction="C1", place="R's column", done=False),
    Redaction(
        id="receipt",
        file_sha256=FILE_SHA256,
        commitment_sha256=ZEROS,
        removed="postal address",
        reason="private",
    ),
)

BODIES: tuple[CaseRecord, ...] = (
    CASE,
    *_CLAIMS,
    *_EXHIBITS,
    *_LABORATORY,
    *_REASONING,
    *_PUBLICATION,
)


def write_example_case(folder: Path) -> tuple[Entry, ...]:
    """Write a case that holds one entry of every kind, at fixed times."""
    when = moment(9, 1)
    create_case(folder, CASE, recorded_by="R", recorded_at=when)
    tag = Original(FILE_CONTENT, "tag.txt", "text/plain")
    with CaseWriter(folder) as writer:
        for body in BODIES[1:]:
            addition = Addition(body, (tag,) if body.id == "tag" else ())
            writer.append(addition, recorded_by="R", recorded_at=when)
        return writer.state.entries
