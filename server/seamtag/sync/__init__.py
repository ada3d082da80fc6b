"""The server's chain, which is the change feed as well, and the pull that reads it."""
