"""Words: how verdicts, places, measures and times are said to a person."""
