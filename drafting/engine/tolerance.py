"""Every tolerance of the engine, each with its physical reason. Millimetres and degrees."""

INCH = 25.4
"""An inch, exactly (international yard and pound agreement, 1959)."""

SEAM = 0.5
"""Two edges sewn to each other may differ by this: half of a chalk line, and less than a machine's feed takes up."""

GIRTH = 0.05 * INCH
"""A finished girth may miss body + ease by this: a tape can't be read closer than a sixteenth."""

CORNER_DEG = 5.0
"""A line that runs on across a seam may bend by this before the eye sees a corner."""

CORNER_SHOULDER_DEG = 10.0
"""At shoulder and neck the seam lies on a ridge of the body, which hides twice that."""

MOVE_REPORTED = 0.125 * INCH
"""A waist end moved by more than this in truing is told to the cutter."""

MOVE_REFUSED = 1.0 * INCH
"""A waist end moved by more than this leaves a waist seam that no longer lies on the waist. The waist's girth is solved
together with the move and does not drift, so the limit is one of place alone. Judgement."""

SLANT_WARNED_DEG = 35.0
"""A seam that slants more than this from straight down stretches on the bias when it is sewn."""

FLATTEN = 0.02
"""A polyline may be shorter than its curve by this over one edge: a fifth of what the result file promises."""

SOLVED = 1e-7
"""A solved unknown is known to this: far below anything that can be cut, so that repeated runs agree to the digit."""

TOUCHING = 1e-6
"""Points nearer than this are one point: it covers rounding in double precision at the size of a skirt (2,000 mm)."""

SLIVER = 0.05
"""How far a cutting line may dip inside its sewing line through flattening alone."""

LAY_TOUCHING = 1e-3
"""Laid pieces may run into each other by this through rounding: a hundredth of a thread. What touches, fits."""

LAY_RECHECKED = 0.01
"""The recheck of a finished lay refuses an overlap deeper than this, and an on-fold piece farther off the fold."""

LAY_SIMPLIFIED = 0.8
"""While searching, an outline may stand this far outside its true line: a chalk line's width. Never inside."""

LAY_EXACT_WIDTH = 0.005
"""A piece that is wider than the cloth by less than this, through rounding of inches, fits it."""
