"""The apps of the kit: each has a label of its own and uses only what stands below it."""
