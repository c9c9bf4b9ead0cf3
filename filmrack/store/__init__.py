"""The one SQLite file: the only place with SQL."""
