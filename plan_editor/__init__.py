"""The Churchyard Plan Editor: a true plan of a churchyard, and the sheets that people act on."""
