"""All disk access: case folders, originals, picture files, written results.

Imports `records`, `quantity` and `errors`. Nothing here computes about copper.

- `create_case`, `CaseWriter`, `read_case`, `verify_case`: the case folder;
- `read_picture`: a picture for measuring, with all that its file says;
- `read_cell_table`, `remember_columns`: tables of readings, CSV and XLSX;
- `read_orientation_table`: a laboratory's table of crystal orientations;
- `read_picture_scale`: what of that can pass for a microscope's scale;
- `write_labels`, `write_overlay`, `write_output_file`: results, whole or not at all.
"""

from strandproof.storage.bundles import read_bundle, write_bundle, zip_bytes
from strandproof.storage.canonical_json import canonical_json, canonical_sha256
from strandproof.storage.case_reading import CaseContents, original_file, read_case
from strandproof.storage.case_writing import (
    Addition,
    CaseWriter,
    Original,
    create_case,
)
from strandproof.storage.cell_tables import (
    COLUMNS_FILE,
    read_cell_table,
    remember_columns,
    remembered_columns,
)
from strandproof.storage.orientation_encoding import (
    angle_remark,
    encode_orientation_table,
)
from strandproof.storage.orientation_tables import read_orientation_table
from strandproof.storage.page_text import file_text
from strandproof.storage.picture_files import write_output_file
from strandproof.storage.picture_metadata import SYNTHETIC_KEY, PixelSizeFromFile
from strandproof.storage.picture_scale import PictureScale, read_picture_scale
from strandproof.storage.picture_writing import (
    encode_png,
    preview_jpeg,
    preview_png,
    write_labels,
    write_overlay,
)
from strandproof.storage.pictures import DecodedPicture, read_picture
from strandproof.storage.private_files import (
    SealedContent,
    read_sealed,
    seal_content,
    sealed_path,
)
from strandproof.storage.verification import Progress, Verification, verify_case

__all__ = [
    "COLUMNS_FILE",
    "SYNTHETIC_KEY",
    "Addition",
    "CaseContents",
    "CaseWriter",
    "DecodedPicture",
    "Original",
    "PictureScale",
    "PixelSizeFromFile",
    "Progress",
    "SealedContent",
    "Verification",
    "angle_remark",
    "canonical_json",
    "canonical_sha256",
    "create_case",
    "encode_orientation_table",
    "encode_png",
    "file_text",
    "original_file",
    "preview_jpeg",
    "preview_png",
    "read_bundle",
    "read_case",
    "read_cell_table",
    "read_orientation_table",
    "read_picture",
    "read_picture_scale",
    "read_sealed",
    "remember_columns",
    "remembered_columns",
    "seal_content",
    "sealed_path",
    "verify_case",
    "write_bundle",
    "write_labels",
    "write_output_file",
    "write_overlay",
    "zip_bytes",
]
