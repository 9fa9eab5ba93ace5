"""The plan check: rules that look at a plan and say what is worth a look."""
