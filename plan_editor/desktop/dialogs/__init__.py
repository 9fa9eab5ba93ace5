"""The few questions that want a window of their own."""
