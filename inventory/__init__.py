"""The catalogue: what the team buys and prints, month after month. It reads no kit."""
