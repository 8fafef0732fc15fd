"""Blinding: codes, the sealed list, hand-outs to readers, and what comes back.

The order is the point: codes are drawn and sealed, coded pictures go out and locked
readings come back, and only then the list is opened and held against its hash.
"""

from strandproof.app.workflow.blinding.coding import (
    codes_in_use,
    label_meant,
    make_codes,
    read_coder_list,
    write_code_lists,
)
from strandproof.app.workflow.blinding.contents import (
    HandOutContents,
    read_hand_out,
)
from strandproof.app.workflow.blinding.handing_out import (
    HandOutRequest,
    hand_out,
)
from strandproof.app.workflow.blinding.name_search import (
    HiddenName,
    hidden_names,
    names_found,
)
from strandproof.app.workflow.blinding.reader_side import (
    OwnReading,
    ReadSoFar,
    read_from_hand_out,
)
from strandproof.app.workflow.blinding.sealing import (
    CheckedList,
    check_opened_list,
    open_list,
    openly_coded,
    seal_list,
)
from strandproof.app.workflow.blinding.taking_back import take_back

__all__ = [
    "CheckedList",
    "HandOutContents",
    "HandOutRequest",
    "HiddenName",
    "OwnReading",
    "ReadSoFar",
    "check_opened_list",
    "codes_in_use",
    "hand_out",
    "hidden_names",
    "label_meant",
    "make_codes",
    "names_found",
    "open_list",
    "openly_coded",
    "read_coder_list",
    "read_from_hand_out",
    "read_hand_out",
    "seal_list",
    "take_back",
    "write_code_lists",
]
