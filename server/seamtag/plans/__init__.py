"""Inspection and test plans: read, checked, published in numbered revisions."""
