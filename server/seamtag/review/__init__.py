"""What the supervisor sees: flags, worst first, and what became of them."""
