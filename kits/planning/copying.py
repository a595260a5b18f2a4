"""A new kit made of another one: what comes along, and what does not."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from kits.planning.needs import LISTS, needed_by_projects, whole_tree
from layouts.document import Kit

__all__ = ["copied"]


def copied(kit: Kit, *, code: str, title: str, lists: Collection[str], projects: Collection[str]) -> dict[str, Any]:
    """Return the document of a new kit: whole lists of what is in the box (`papers`, `tools` …), and some projects.

    What a project needs comes with it: its prints, and the project whose cut-out it uses. Pads come with their papers.
    A step that waited for a project that stays behind waits for it no longer. Accepted findings stay behind: somebody
    accepted them in the other kit, and so do notes (`x_…`) about that kit as a whole.
    """
    tree = whole_tree(kit)
    wanted = needed_by_projects(kit, projects)
    wanted |= {f"{LISTS[name]}:{one['id']}" for name in lists for one in tree[name]}
    wanted |= {f"pad:{one['pad']}" for one in tree["papers"] if f"paper:{one['id']}" in wanted and "pad" in one}
    new: dict[str, Any] = {name: tree[name] for name in ("format", "unit", "printed", "cutting") if name in tree}
    new |= {name: [one for one in tree[name] if f"{kind}:{one['id']}" in wanted] for name, kind in LISTS.items()}
    new["projects"] = [one for one in tree["projects"] if f"project:{one['id']}" in wanted]
    for project in new["projects"]:
        for step in project["steps"]:
            _let_go(step, wanted)
    return {**new, "code": code, "title": title}


def _let_go(step: dict[str, Any], wanted: Collection[str]) -> None:
    after = step.get("after")
    if not after:
        return
    kept = [one for one in after if "/" not in one or f"project:{one.partition('/')[0]}" in wanted]
    if kept:
        step["after"] = kept
    else:
        # Not at once: it comes after the one before it, as in a project that never waited.
        del step["after"]
