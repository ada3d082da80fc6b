"""Who may come in and what may go out: sessions, headers, limits, the one shape of an error."""
