"""The command of the contract that needs the settings; each module is named in the door's table."""
