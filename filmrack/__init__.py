"""Filmrack follows each roll of a school darkroom from the dryer to the archive of its term."""

__version__ = "0.1.0"
