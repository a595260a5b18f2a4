"""The base of every object of a kit document: unknown fields are refused, `x_…` fields travel along, null is absent."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field, model_validator

__all__ = ["CARRIED", "DocumentObject"]

# The tree reader gathers an object's x_… members under this key. It holds a control character, which no text of a
# document may hold, so that no document can write it.
CARRIED = "\0carried"


def _schema_of_object(schema: dict[str, Any]) -> None:
    schema.get("properties", {}).pop(CARRIED, None)
    schema["patternProperties"] = {"^x_": {}}
    schema["additionalProperties"] = False


class DocumentObject(BaseModel):
    """A frozen object of the kit document."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        arbitrary_types_allowed=True,
        json_schema_extra=_schema_of_object,
        serialize_by_alias=True,
        protected_namespaces=(),
    )

    carried: dict[str, Any] = Field(default_factory=dict, alias=CARRIED)

    @model_validator(mode="before")
    @classmethod
    def _null_is_absent(cls, value: Any) -> Any:
        """Drop null on optional fields; on a required one it stays and is refused as the wrong type."""
        if not isinstance(value, dict) or None not in value.values():
            return value
        optional = {field.alias or name for name, field in cls.model_fields.items() if not field.is_required()}
        return {key: member for key, member in value.items() if member is not None or key not in optional}
