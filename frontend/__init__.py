"""The pages: addresses, views, templates, their look, and the words that a person reads."""
