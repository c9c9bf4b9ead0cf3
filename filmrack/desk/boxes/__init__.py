"""The screen Boxes: the period boxes after class, and what lies in them."""
