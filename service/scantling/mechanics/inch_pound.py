"""The inch-pound constants the American formulas are printed in; everything outside speaks mm, N and N/mm2."""

MM_PER_INCH = 25.4
N_PER_LB = 4.4482216152605
N_MM2_PER_PSI = N_PER_LB / MM_PER_INCH**2
N_MM_PER_LB_IN = N_PER_LB / MM_PER_INCH
QUARTER_INCH_MM = 6.35
