"""The map of the house, drawn from the code: every room and module with the first sentence of its docstring.

`python -m tests.frame.house_map` writes it into DEVELOPERS.md.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
ROOMS = ("config", "frontend", "kits", "inventory", "layouts")


def house_map() -> str:
    return "".join(f"{line}\n" for room in ROOMS if (TOP / room).is_dir() for line in _room(TOP / room, 0))


def written_map() -> str:
    text = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    return text.partition("```text\n")[2].partition("```\n")[0]


def _room(folder: Path, depth: int) -> Iterator[str]:
    yield _line(f"{folder.name}/", depth, _first_sentence(folder / "__init__.py"))
    for entry in sorted(folder.iterdir(), key=lambda path: (path.is_dir(), path.name)):
        if entry.is_dir() and entry.name not in ("__pycache__", "migrations") and any(entry.rglob("*.py")):
            yield from _room(entry, depth + 1)
        elif entry.suffix == ".py" and entry.name != "__init__.py":
            yield _line(entry.stem, depth + 1, _first_sentence(entry))


def _line(name: str, depth: int, sentence: str) -> str:
    return f"{'  ' * depth}{name}".ljust(26) + (f" {sentence}" if sentence else "")


def _first_sentence(module: Path) -> str:
    if not module.exists():
        return ""
    docstring = ast.get_docstring(ast.parse(module.read_text(encoding="utf-8"))) or ""
    return re.split(r"(?<=[.?!])\s|\n\n", docstring, maxsplit=1)[0].replace("\n", " ")


def main() -> None:
    path = TOP / "DEVELOPERS.md"
    text = path.read_text(encoding="utf-8")
    before, _, rest = text.partition("```text\n")
    after = rest.partition("```\n")[2]
    path.write_text(f"{before}```text\n{house_map()}```\n{after}", encoding="utf-8")


if __name__ == "__main__":
    main()
