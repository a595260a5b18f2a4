"""The commands of the contract: each a module with SUMMARY, add_arguments and run."""
