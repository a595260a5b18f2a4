"""Views: each parses a request, calls one service or query, and picks a template."""
