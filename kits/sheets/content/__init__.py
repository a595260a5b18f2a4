"""What stands on a sheet, as plain values: made from a document and its proof, and from nothing else."""
