"""The rules, one family a module: each has `RULES` and `findings`."""
