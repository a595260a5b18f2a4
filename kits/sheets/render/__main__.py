"""The child process: see `kits.sheets.render.child`."""

from kits.sheets.render.child import main

main()
