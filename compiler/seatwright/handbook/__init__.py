"""Formulas of floats: mm, N, MPa, °C, degrees."""

MM_PER_INCH = 25.4
"""Exactly (international yard and pound agreement, 1959), as in grammar/units.txt."""

NEWTONS_PER_LBF = 4.4482216152605
"""Exactly (NIST SP 811, appendix B.8), as in grammar/units.txt."""
