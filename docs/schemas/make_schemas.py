"""Write the JSON schema of every kind of entry beside this file."""

import json
from pathlib import Path

from strandproof.records.entries import ENTRY_KINDS, Entry


def schema_texts() -> dict[str, str]:
    """Give file name and text of every schema."""
    records = {**ENTRY_KINDS, "entry": Entry}
    return {
        f"{kind}.json": json.dumps(
            record.model_json_schema(mode="serialization"), indent=2, ensure_ascii=False
        )
        + "\n"
        for kind, record in records.items()
    }


if __name__ == "__main__":
    for name, text in schema_texts().items():
        (Path(__file__).parent / name).write_text(text, encoding="utf-8")
