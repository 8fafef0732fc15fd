"""The registry of entry kinds: name to record and back."""

from collections.abc import Mapping
from types import MappingProxyType

from strandproof.errors import ParameterError
from strandproof.records.entries import (
    claims,
    exhibits,
    keeping,
    laboratory,
    planning,
    publication,
    reasoning,
)
from strandproof.records.entries.bodies import CaseRecord

ENTRY_KINDS: Mapping[str, type[CaseRecord]] = MappingProxyType(
    {
        "case": claims.Case,
        "claim": claims.Claim,
        "capture": claims.Capture,
        "capture_search": claims.CaptureSearch,
        "document": claims.Document,
        "own_statement": claims.OwnStatement,
        "disclosure": claims.Disclosure,
        "cost": claims.Cost,
        "permission": claims.Permission,
        "purchase": exhibits.Purchase,
        "exhibit": exhibits.Exhibit,
        "portion": exhibits.Portion,
        "disposal": exhibits.Disposal,
        "seal": exhibits.Seal,
        "layer": exhibits.Layer,
        "conductor_type": exhibits.ConductorType,
        "specimen": exhibits.Specimen,
        "hand_over": exhibits.HandOver,
        "handling_event": exhibits.HandlingEvent,
        "gap_explanation": keeping.GapExplanation,
        "flag_answer": keeping.FlagAnswer,
        "section": laboratory.Section,
        "preparation_step": laboratory.PreparationStep,
        "control": laboratory.Control,
        "calibration": laboratory.Calibration,
        "micrograph": laboratory.Micrograph,
        "reading": laboratory.Reading,
        "reading_lock": laboratory.ReadingLock,
        "measurement": laboratory.Measurement,
        "plan_lock": planning.PlanLock,
        "deviation": planning.Deviation,
        "blind_list_sealed": planning.BlindListSealed,
        "blind_list_opened": planning.BlindListOpened,
        "hand_out": planning.HandOut,
        "hand_out_returned": planning.HandOutReturned,
        "hypothesis": reasoning.Hypothesis,
        "observation": reasoning.Observation,
        "weighing": reasoning.Weighing,
        "sentence": publication.Sentence,
        "letter_sent": publication.LetterSent,
        "reply": publication.Reply,
        "challenge": publication.Challenge,
        "published_version": publication.PublishedVersion,
        "correction": publication.Correction,
        "error_place": publication.ErrorPlace,
        "redaction": publication.Redaction,
    }
)

_KIND_BY_RECORD = MappingProxyType(
    {record: kind for kind, record in ENTRY_KINDS.items()}
)


def kind_of(body: CaseRecord) -> str:
    """Give the name of the kind that a body belongs to.

    Parameters
    ----------
    body : CaseRecord
        Body of an entry.

    Returns
    -------
    str
        Name of the kind.
    """
    return kind_of_record(type(body))


def kind_of_record(record: type[CaseRecord]) -> str:
    """Give the name of the kind that a record class stands for.

    Parameters
    ----------
    record : type of CaseRecord
        Class of a body.

    Returns
    -------
    str
        Name of the kind.

    Raises
    ------
    ParameterError
        If the class is no body of an entry.
    """
    try:
        return _KIND_BY_RECORD[record]
    except KeyError:
        raise ParameterError(
            "record", record.__name__, allowed="the record of a registered kind"
        ) from None


def kind_in_words(kind: str) -> str:
    """Give the name of a kind as it reads in a sentence.

    Parameters
    ----------
    kind : str
        Name of the kind, for example ``"hand_over"``.

    Returns
    -------
    str
        The words, for example ``"hand-over"``.

    Examples
    --------
    >>> kind_in_words("blind_list_sealed")
    'blind list sealed'
    """
    return "hand-over" if kind == "hand_over" else kind.replace("_", " ")
