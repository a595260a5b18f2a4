"""`manage.py schema`: write the published JSON Schema of the kit document beside the code it is drawn from."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand

import layouts.document
from layouts.document import schema_text

PUBLISHED = Path(layouts.document.__file__).parent / "kitproof-1.schema.json"


class Command(BaseCommand):
    help = "Write the JSON Schema of kit documents to layouts/document/kitproof-1.schema.json."
    requires_system_checks: list[str] = []

    def handle(self, *args: Any, **options: Any) -> None:
        PUBLISHED.write_text(schema_text(), encoding="utf-8")
        self.stdout.write(f"{PUBLISHED.name} is up to date")
