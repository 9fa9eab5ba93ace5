"""Who lies where, what is due: pure sums over the register."""
