"""What all rows of a draft have: their place in a list, and an id that is theirs alone in it."""

from __future__ import annotations

from typing import Any, Literal, get_args, get_origin

from django.db import models
from django.db.models import Q
from django.db.models.functions import Lower

from layouts.document.base import DocumentObject

__all__ = ["MOST", "NamedRow", "Row", "between", "in_list", "known", "words"]

# The greatest count in a document.
MOST = 10_000
LONGEST_ID = 32


class Row(models.Model):
    """A member of a list of the document; `carried` are its `x_…` members."""

    position = models.PositiveIntegerField()
    carried = models.JSONField(default=dict, blank=True)

    class Meta:
        abstract = True
        ordering = ["position"]


class NamedRow(Row):
    """A member with an id."""

    ident = models.CharField(max_length=LONGEST_ID)

    class Meta(Row.Meta):
        abstract = True

    def __str__(self) -> str:
        return self.ident


def words(model: type[DocumentObject], member: str) -> list[str]:
    """Return the words that a member of the document may hold."""
    annotation: Any = model.model_fields[member].annotation
    literal = next((part for part in (annotation, *get_args(annotation)) if get_origin(part) is Literal), None)
    assert literal is not None, f"{model.__name__}.{member} takes any word"
    return [*get_args(literal)]


def known(column: str, allowed: list[str], *, optional: bool = False) -> models.CheckConstraint:
    """A column holds one of the document's words, or nothing where it is optional."""
    return models.CheckConstraint(
        condition=Q(**{f"{column}__in": [*allowed, *([""] if optional else [])]}), name=f"%(class)s_{column}_is_known"
    )


def between(column: str, low: int, high: int) -> models.CheckConstraint:
    """A number lies within the bounds of the document; an absent one does."""
    return models.CheckConstraint(condition=Q(**{f"{column}__range": (low, high)}), name=f"%(class)s_{column}_in_range")


def in_list(owner: str, *, named: bool = True) -> list[models.BaseConstraint]:
    """Members of a list have different positions, and different ids, in whatever letters."""
    constraints: list[models.BaseConstraint] = [
        models.UniqueConstraint(fields=[owner, "position"], name="%(class)s_one_at_a_position")
    ]
    if named:
        constraints.append(models.UniqueConstraint(owner, Lower("ident"), name="%(class)s_one_with_an_id"))
    return constraints
