"""An invented shop for the demonstration: people, gauges, plans, jobs, and days of signed records."""
