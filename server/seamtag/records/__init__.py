"""Signed records: decoded, verified, chained, stored, judged."""
