"""The form in which a base plan is fitted to points."""
