"""The screen Labels: what is printed, chosen and drawn before it is."""
