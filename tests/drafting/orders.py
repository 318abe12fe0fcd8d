"""A whole, valid order file that uses every key of the contract, to be spoiled one field a test."""

import copy
from typing import Any

EXAMPLE: dict[str, Any] = {
    "order": "S-014",
    "client": "Ines",
    "units": "in",
    "measured_on": "2026-03-02",
    "measures": {
        "bust": "38 1/2",
        "under_bust": 33,
        "waist": "30.25",
        "hip": "104cm",
        "neck": "14¾",
        "shoulder": "16",
        "shoulder_to_bust": "10 3/4",
        "shoulder_to_under_bust": "13 3/4",
        "shoulder_to_waist": "18,5",
        "nape_to_waist": '16 1/2"',
        "armhole_depth": "169 mm",
    },
    "garment": {
        "kind": "bustier-gown",
        "fit": "close",
        "top_edge": "straight",
        "yoke": "none",
        "waist": "straight",
        "skirt": {"kind": "a-line", "length": 38},
        "sleeve": None,
        "closure": "back-lacing",
        "lined": True,
        "rules": {"let_out": "1 1/4", "front_share": 0.8},
    },
    "cloths": [
        {
            "name": "brocade",
            "for": ["shell"],
            "width": 55,
            "on_hand": "4yd",
            "selvedge": "1/2",
            "layout": "folded",
            "one_way": True,
            "repeat": "3 in",
            "repeat_across": "2 in",
            "match": ["band", "skirt front"],
            "motifs": [{"piece": "centre cup", "at": ["1 1/2", "2 in"]}, {"piece": "skirt front"}],
            "first_motif": "1 in",
            "flaws": [[[1, 2], [3, 2], [3, "4 1/2"]]],
            "shrink": 0.03,
            "price": 24.5,
        },
        {"name": "lawn", "for": ["lining"], "width": 44},
        {"name": "woven fusible", "for": ["stay"], "width": 36},
        {"name": "cotton batting", "for": ["wadding"], "width": 60},
    ],
    "dates": {"booked": "2026-02-20", "cut": "2026-03-13", "fittings": ["2026-03-20"], "collect": "2026-03-28"},
    "notes": ["waist seam to sit on the belt mark"],
    "fit_notes": [{"place": "side waist", "side": "both", "amount": "-1/4"}],
}


def example() -> dict[str, Any]:
    return copy.deepcopy(EXAMPLE)


LEAVE_OUT = object()


def spoiled(path: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    """The example with one value changed, added, or left out."""
    order = example()
    place: Any = order
    for step in path[:-1]:
        place = place[step]
    if value is LEAVE_OUT:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return order
