"""Planning: kits and their drafts, row by row, and what changes them; every draft is a valid document."""
