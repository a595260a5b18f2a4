"""What the page of a kit shows, worked out from its document, its newest check and the proofs there are."""
