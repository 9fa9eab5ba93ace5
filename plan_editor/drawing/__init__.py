"""A plan as ink on paper."""
