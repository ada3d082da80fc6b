"""The Python core against the built TypeScript core, on cases made at random from a seed.

`python -m tests.core.differential --cases 1000000 --seed 1` is the long run; test_differential.py is the short one.
"""
