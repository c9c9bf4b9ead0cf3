"""The screen Room: all that a darkroom decides, with its people and clips."""
