"""How forms are written: label, what is wrong, what to type, and the control, each tied to it."""

from django.forms.renderers import DjangoTemplates

__all__ = ["Renderer"]


class Renderer(DjangoTemplates):
    field_template_name = "frontend/parts/field.html"
