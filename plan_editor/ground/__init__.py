"""What the ground allows: pure sums over a plan."""
