"""Things of a kit as forms: everything that the document holds of one, in sections, each value with its control."""
