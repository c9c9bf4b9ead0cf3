"""The invented school that demo.db holds."""
