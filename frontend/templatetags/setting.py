"""Template filters for how things are set on a page."""

from django import template

from frontend.words.measures import set_measures

register = template.Library()
register.filter("measures", set_measures)
