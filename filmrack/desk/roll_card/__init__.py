"""The card of the selected roll, beside every screen of rolls."""
