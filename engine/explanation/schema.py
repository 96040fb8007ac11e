"""The JSON Schema of the explanation document, made from its models.

``python -m engine.explanation.schema > docs/explanation.schema.json`` writes the published copy; a test holds
the copy to the models.
"""

from __future__ import annotations

import json
import sys

from engine.explanation.document_models import FORMAT, ExplanationDocument

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_text() -> str:
    """The schema as it is published: keys in a fixed order, a line ending at the end."""
    made = ExplanationDocument.model_json_schema(mode="serialization")
    schema = {"$schema": DIALECT, "$id": f"urn:{FORMAT.replace(' ', ':')}", **made}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
