"""What tells a darkroom file from any other, and which version of it this Filmrack writes."""

APPLICATION_ID = 0x46525231
""""FRR1", as SQLite keeps it in the head of a file."""

VERSION = 1
"""How many steps of `store.schema` a file has had; whoever only looks one up imports none."""
