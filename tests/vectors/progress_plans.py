"""Cases to come."""
