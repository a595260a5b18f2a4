"""The child process: `python -m layouts.cutting`, started by `layouts.cutting.guard` and by nobody else."""

from layouts.cutting.child import main

main()
