"""The commands of the contract that make sheets."""
