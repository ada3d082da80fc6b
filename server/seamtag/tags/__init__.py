"""QR tags: their codes, their labels, and what a scan leads to."""
