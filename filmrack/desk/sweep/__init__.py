"""The screen Sweep: the dryer gone through rod by rod."""
