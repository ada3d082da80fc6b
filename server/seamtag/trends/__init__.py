"""What the readings of one item, taken one after another, say together: spread, capability, run rules and drift."""
