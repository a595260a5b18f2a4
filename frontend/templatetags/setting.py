"""Template filters for how things are set on a page."""

from collections.abc import Collection

from django import template

from frontend.words.measures import set_measures

register = template.Library()
register.filter("measures", set_measures)


@register.filter
def in_page(anchor: str, closed: Collection[str] | str) -> str:
    """Return the address of an element of a kit's page; one of a project that is closed opens that."""
    project = anchor.partition("/")[0].removeprefix("project:")
    return f"?project={project}#{anchor}" if anchor.startswith("project:") and project in closed else f"#{anchor}"
