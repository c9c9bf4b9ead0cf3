"""The Textual app: the only place with Textual."""
