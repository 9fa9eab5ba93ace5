"""The Churchyard Plan Editor: a true plan of a churchyard, and the sheets people act on."""
