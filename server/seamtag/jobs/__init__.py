"""Jobs: one boiler or vessel each, with design figures, drawing revisions and pieces."""
