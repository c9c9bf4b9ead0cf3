"""The screen Dryer: the map of the cabinet as it hangs."""
