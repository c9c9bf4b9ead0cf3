"""The cautions that stand where people work with chemistry, water, clips and a cabinet."""

CAUTIONS = (
    "Goggles on while you pour, gloves while you handle chemistry, ventilation running.",
    # The quarter of an hour is that of ANSI/ISEA Z358.1, a standard for eyewash equipment.
    "Chemistry in an eye: rinse at the eyewash for at least 15 minutes, and have help called.",
    "Gloves off and hands rinsed before you touch the keyboard or the scanner.",
    "Dry hands for switches and plugs. Keep electronics away from splashes, on a protected outlet.",
    "Clips have sharp teeth: keep fingers out of them.",
    "Never leave the cabinet running with nobody there.",
    "Dryness is an estimate: film is dry when a touch at both ends says so.",
    "Safety data sheets, this room's rules and local codes come before anything said here.",
)
"""Sentences in the order in which they are shown; the last one is what all others bow to."""
