"""One numbered file a step of the file format, ``u0002_….py``, each declaring ``UPGRADE``."""
