"""The process that sets pages: `python -m kits.sheets.render`, started by `kits.sheets.rendering` and by nobody else.

It imports no Django, knows no font but its own, fetches nothing, and may die without harm.
"""
