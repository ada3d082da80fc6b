"""Photos: the sealed original by its SHA-256, and copies without metadata to show."""
