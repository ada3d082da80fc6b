"""Drawings: the sheets of a job as pictures, with its pieces pinned on them."""
