"""The command line: the only place with click."""
