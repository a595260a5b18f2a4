"""The published JSON Schema of the kit document. It judges shape only; the reader judges the rest."""

from __future__ import annotations

import json
from typing import Any

from layouts.document.kit import Kit

__all__ = ["schema_text"]


def schema_text() -> str:
    """Return the JSON Schema (2020-12) as text, ready to be written to a file."""
    schema: dict[str, Any] = {"$schema": "https://json-schema.org/draft/2020-12/schema", **Kit.model_json_schema()}
    return json.dumps(schema, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
