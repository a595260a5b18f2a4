"""The frame: settings, addresses and the doors through which everything is entered."""
