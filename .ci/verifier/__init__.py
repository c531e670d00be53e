"""A second verifier of written proofs, from clearance/proof/FORMAT.md alone; see ../verify.py."""

import numpy

numpy.seterr(all="ignore")  # infinities and NaN end in a bound that holds nothing
