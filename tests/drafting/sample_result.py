"""A stand-in for what the engine gives: a strapless gown with invented figures, shaped as the contract has it.

Sheets and pictures are made from the order file and the result alone, so their tests need no engine. The curves are
plain Bézier strokes and the cutting lines Shapely buffers: near enough to look like the pieces, not a draft.
"""

from __future__ import annotations

import copy
import math

from shapely import LineString, Polygon, box, unary_union

IN = 25.4


def curve(*controls, steps=24):
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = controls
    return [
        (
            (1 - t) ** 3 * x0 + 3 * (1 - t) ** 2 * t * x1 + 3 * (1 - t) * t * t * x2 + t**3 * x3,
            (1 - t) ** 3 * y0 + 3 * (1 - t) ** 2 * t * y1 + 3 * (1 - t) * t * t * y2 + t**3 * y3,
        )
        for t in (i / steps for i in range(steps + 1))
    ]


def plumb(a, b):
    rise = b[1] - a[1]
    return curve(a, (a[0], a[1] + 0.35 * rise), (b[0], b[1] - 0.35 * rise), b)


def inches(line):
    return [(x * IN, y * IN) for x, y in line]


def run(line):
    return sum(math.dist(a, b) for a, b in zip(line, line[1:]))


def piece(number, name, edges, *, of=None, dims=(), notches=(), darts=(), cut=(), let_out=(), remarks=(), on_fold=False, grain=None, trim=()):
    """Return one piece; `edges` are (name, line in inches, allowance in inches) once round, clockwise."""
    edges = [(edge, inches(line), allowance * IN) for edge, line, allowance in edges]
    net = [point for _, line, _ in edges for point in line[:-1]]
    plain = Polygon([p for name_, line, _ in edges if not name_.startswith("dart") for p in line[:-1]] + [edges[-1][1][-1]])
    parts = [plain.buffer(0.5 * IN, join_style="mitre")]
    parts += [
        LineString(line).buffer(-allowance, single_sided=True, join_style="mitre")
        for _, line, allowance in edges
        if allowance > 0.5 * IN
    ]
    whole = unary_union(parts)
    if on_fold:
        whole = whole.intersection(box(0, -1e4, 1e4, 1e4))
    whole = max(getattr(whole, "geoms", [whole]), key=lambda part: part.area)
    ring = list(whole.exterior.coords)[:-1][::-1]
    left, top, right, bottom = plain.bounds
    middle = left + 0.55 * (right - left)
    return {
        "name": name, "title": name[:1].upper() + name[1:], "number": number, "of": of, "on_fold": on_fold, "side": "both",
        "cut": [dict(zip(("cloth", "role", "count"), one)) for one in cut],
        "net": net, "cut_line": ring,
        "edges": [{"name": edge, "line": line, "allowance": allowance} for edge, line, allowance in edges],
        "grain": grain or [(middle, bottom - 0.2 * (bottom - top)), (middle, top + 0.2 * (bottom - top))],
        "notches": [
            {"edge": edge, "at": at * IN, "mark": mark, "mate": None} for edge, at, mark in notches
        ],
        "darts": [{"point": tuple(c * IN for c in point), "legs": [inches(leg) for leg in legs]} for point, legs in darts],
        "dims": [
            {"from": tuple(c * IN for c in a), "to": tuple(c * IN for c in b), "value": math.dist(a, b) * IN} for a, b in dims
        ],
        "let_out": [inches(line) for line in let_out],
        "remarks": list(remarks),
    }


def shell_pieces():
    cups = [("brocade", "cup", 1), ("lawn", "lining", 1), ("woven fusible", "stay", 2), ("cotton batting", "wadding", 1)]
    pairs = [(cloth, role, count * 2) for cloth, role, count in cups]
    seam_c = plumb((3.1, 7.5), (3.5, 10.25)) + plumb((3.5, 10.25), (2.75, 13.3))[1:]
    seam_s = plumb((4.0, 7.5), (3.6, 10.25)) + plumb((3.6, 10.25), (4.7, 12.9))[1:]
    side = [(9.6, 7.5), (9.6, 10.0)] + plumb((9.6, 10.0), (9.35, 12.3))[1:]
    band_side = plumb((8.0, 13.3), (7.25, 15.9))
    back_side = [(8.7, 7.5), (8.7, 9.6)] + plumb((8.7, 9.6), (8.5, 12.1))[1:] + plumb((8.5, 12.1), (7.75, 14.7))[1:]
    yield piece(1, "centre cup", [
        ("top", [(0, 7.5), (3.1, 7.5)], 0.5), ("cup seam", seam_c, 0.5), ("under-bust", [(2.75, 13.3), (0, 13.3)], 0.5),
        ("fold", [(0, 13.3), (0, 7.5)], 0),
    ], on_fold=True, cut=cups, notches=[("cup seam", 2.8, "single")], remarks=["notch at bust"],
        dims=[((0, 7.5), (3.1, 7.5)), ((0, 13.3), (2.75, 13.3)), ((3.5, 10.25), (0, 10.25)), ((3.1, 7.5), (3.1, 13.3))])
    yield piece(2, "side cup", [
        ("top", [(4.0, 7.5), (9.6, 7.5)], 0.5), ("side", side, 1.5),
        ("under-bust", curve((9.35, 12.3), (7.8, 12.3), (6.2, 12.9), (4.7, 12.9)), 0.5), ("cup seam", seam_s[::-1], 0.5),
    ], cut=pairs, notches=[("cup seam", 2.8, "single"), ("side", 2.5, "double")], remarks=["notch at bust, two at side"],
        dims=[((4.0, 7.5), (9.6, 7.5)), ((4.7, 12.9), (9.35, 12.3)), ((9.6, 7.5), (9.6, 12.3))],
        let_out=[[(10.1, 7.5), (10.1, 10.0), (9.85, 12.3)]])
    yield piece(3, "band", [
        ("under-bust", [(0, 13.3), (8.0, 13.3)], 0.5), ("side", band_side, 1.5), ("waist", [(7.25, 15.9), (0, 15.9)], 0.5),
        ("fold", [(0, 15.9), (0, 13.3)], 0),
    ], on_fold=True, cut=[("brocade", "band", 1), ("lawn", "lining", 1), ("woven fusible", "stay", 2)],
        notches=[("under-bust", 2.75, "single")], remarks=["notch at cup seam"],
        dims=[((0, 13.3), (8.0, 13.3)), ((0, 15.9), (7.25, 15.9)), ((7.25, 13.3), (7.25, 15.9))],
        let_out=[[(8.5, 13.3), (7.75, 15.9)]])
    leg_a, leg_b = plumb((4.35, 14.7), (4.0, 10.25)), plumb((3.65, 14.7), (4.0, 10.25))
    yield piece(4, "back", [
        ("top", [(0, 7.5), (8.7, 7.5)], 0.5), ("side", back_side, 1.5), ("waist 1", [(7.75, 14.7), (4.35, 14.7)], 0.5),
        ("dart 1 a", leg_a, 0), ("dart 1 b", leg_b[::-1], 0), ("waist 2", [(3.65, 14.7), (0, 14.7)], 0.5),
        ("centre back", [(0, 14.7), (0, 7.5)], 1),
    ], cut=[("brocade", "back", 2), ("lawn", "lining", 2)], darts=[((4.0, 10.25), [leg_a, leg_b])],
        notches=[("side", 2.5, "double")], remarks=["lacing loops 1 apart at the centre back"],
        dims=[((0, 7.5), (8.7, 7.5)), ((0, 14.7), (7.75, 14.7)), ((8.7, 7.5), (8.7, 14.7)), ((3.65, 14.7), (4.35, 14.7))],
        let_out=[[(9.2, 7.5), (9.2, 9.6), (9.0, 12.1), (8.25, 14.7)]])
    skirt = [("brocade", "skirt", 1), ("lawn", "lining", 1)]
    hem_f = curve((14.6, 53.1), (10, 54.1), (4.5, 54.6), (0, 54.6))
    side_f = curve((7.25, 15.6), (8.6, 18.4), (9.9, 20.9), (10.6, 23.6)) + [(14.6, 53.1)]
    yield piece(5, "skirt front", [
        ("waist", curve((0, 15.9), (3, 15.9), (5.5, 15.8), (7.25, 15.6)), 0.5), ("side", side_f, 1.5), ("hem", hem_f, 2),
        ("fold", [(0, 54.6), (0, 15.9)], 0),
    ], on_fold=True, cut=skirt, notches=[("side", 8, "single")],
        dims=[((0, 15.9), (7.25, 15.6)), ((0, 54.6), (14.6, 53.1)), ((0, 15.9), (0, 54.6))], let_out=[[(x + 0.5, y) for x, y in side_f]])
    leg_a, leg_b = plumb((4.2, 15.9), (3.7, 21.4)), plumb((3.2, 15.9), (3.7, 21.4))
    side_b = [(x + 0.5, y) for x, y in side_f]
    hem_b = [(x + 0.5 * x / 14.6, y) for x, y in hem_f]
    yield piece(6, "skirt back", [
        ("waist 1", [(0, 15.9), (3.2, 15.9)], 0.5), ("dart 1 a", leg_b, 0), ("dart 1 b", leg_a[::-1], 0),
        ("waist 2", curve((4.2, 15.9), (5.5, 15.9), (6.8, 15.8), (7.75, 15.6)), 0.5), ("side", side_b, 1.5), ("hem", hem_b, 2),
        ("centre back", [(0, 54.6), (0, 15.9)], 1),
    ], cut=[(cloth, role, count * 2) for cloth, role, count in skirt], darts=[((3.7, 21.4), [leg_a, leg_b])],
        notches=[("side", 8, "double")], remarks=["open 7 below the waist under the lacing"],
        dims=[((0, 15.9), (7.75, 15.6)), ((0, 54.6), (15.1, 53.1)), ((15.1, 15.9), (15.1, 54.6)), ((3.2, 15.9), (4.2, 15.9))],
        let_out=[[(x + 0.5, y) for x, y in side_b]])
    yield piece(7, "modesty panel", [
        ("top", [(0, 7.5), (2.5, 7.5)], 0.5), ("side", [(2.5, 7.5), (2.5, 14.7)], 0.5), ("waist", [(2.5, 14.7), (0, 14.7)], 0.5),
        ("fold", [(0, 14.7), (0, 7.5)], 0),
    ], on_fold=True, cut=[("brocade", "back", 1), ("lawn", "lining", 1)],
        dims=[((0, 14.7), (2.5, 14.7)), ((2.5, 7.5), (2.5, 14.7))])
    yield piece(5, "skirt front lining", [
        ("waist", curve((0, 15.9), (3, 15.9), (5.5, 15.8), (7.25, 15.6)), 0.5), ("side", side_f[:-1] + [(14.4, 52.1)], 0.5),
        ("hem", [(x * 14.4 / 14.6, y - 1) for x, y in hem_f], 1), ("fold", [(0, 53.6), (0, 15.9)], 0),
    ], of="skirt front", on_fold=True, cut=[("lawn", "lining", 1)], remarks=["1 shorter than the outside"],
        dims=[((0, 53.6), (14.4, 52.1)), ((0, 15.9), (0, 53.6))])


STEPS = [
    ("side cup", "From the fold, go across the bust line 3½ (half of bust span) and mark the bust point.", "The seam passes over it, so the cup is fullest there."),
    ("side cup", "At the under-bust line, mark ¾ toward the fold and 1¾ away from it: that is the dart, 2½ wide.", "Four fifths of what the bust is larger than the under-bust is taken in front."),
    ("side cup", "At the top edge, mark ⁷⁄₁₆ each side of the seam's place and join to the bust point by curves that leave it straight down.", ""),
    ("side cup", "Along the top edge, 9⅝ from the fold, go straight down to the bust level, then 4⅞ in all to the under-bust line. That is the side seam.", "The front tape climbs over the bust: here the level lies ¾ higher than at the fold."),
    ("side cup", "Draw both sides of the cup seam. Raise the lower end of the side leg ⁵⁄₁₆; both legs are now 6⅛.", "Legs that differ pucker the cup. Check: lay the tape along both."),
    ("band", "Square down 2⅝ from the under-bust to the waist at the fold and at the side.", ""),
    ("band", "Waist 7¼ from the fold; under-bust 8. Draw the side by a curve that starts and ends straight down.", "A quarter of what the under-bust is larger than the waist."),
    ("back", "From the centre back, go across the bust level 8¾; the side seam runs straight down from the top edge to there.", ""),
    ("back", "Dart at half the under-bust width, ⅝ wide, its point on the back's bust level. Both legs 4½.", "A higher point would steal from the bust."),
    ("skirt front", "From the waist, down 8 to the hip: across 10⅜. Side seam from 7¼ at the waist.", ""),
    ("skirt front", "Turn the side out by 2½ at the hem. Square the hem to the side seam; arch it to the fold.", "A hem that meets the seam squarely hangs without a point."),
    ("skirt back", "The same side seam. Dart 1 wide, 5½ long, 3¾ from the centre back.", "Seam and seam are then equal: 40⅛ each."),
]

MAKING = [
    "Fuse stay to cups and band, outside and lining; mark notches and the bust points.",
    "Quilt the wadding to the cups; trim it to the sewing line.",
    "Cup seams, brocade then lining. Press open over a ham.",
    "Cups to the band. Walk the seam first: 8 to 8.",
    "Back darts; side seams basted for the fitting, the let-out kept.",
    "Casings on the seams; bones short of the raw edge by ¾.",
    "Top edge: brocade to lining, stitched straight, turned.",
    "Lacing loops 1 apart at the centre back; the panel tacked to the left side.",
    "Skirt darts and sides; skirt to the waist, 7 left open under the lacing.",
    "Lining in; let it hang a day; hem after the last fitting.",
]

CAUTIONS = [
    "The draft is a starting point: make a toile for a first order or a close fit.",
    "Tip and cap every cut end of bone; wear eye protection when cutting steel bones.",
    "No machine stitching over pins or bones. Unplug the iron.",
    "Keep pins, needles, shears and irons away from children.",
    "Local rules for workshop safety and electrical equipment come first.",
]

MEASURES = {
    "bust": 38.5, "high_bust": 36, "under_bust": 33, "waist": 30.25, "hip": 41, "neck": 14.5, "shoulder": 15.5, "across_front": 13.5,
    "across_back": 14, "bust_span": 7.25, "shoulder_to_bust": 10.75, "shoulder_to_under_bust": 13.75, "shoulder_to_waist": 16.375,
    "nape_to_waist": 15, "armhole_depth": 6.5, "waist_to_hip": 8, "skirt_length": 38,
}


def _seam(name, a, b, length_a, ease=0.0, off=0.0):
    return {
        "name": name, "a": [{"piece": p, "edge": e} for p, e in a], "b": [{"piece": p, "edge": e} for p, e in b],
        "length_a": length_a * IN + ease * IN + off * IN, "length_b": length_a * IN, "ease": ease * IN,
    }


def sample_result() -> dict:
    """Return a fresh result dict of the sample gown, all checks passed."""
    pieces = copy.deepcopy(list(shell_pieces()))
    for one in pieces[0]["cut"], pieces[1]["cut"]:
        one[-1]["cut_line"] = pieces[0]["net"] if one is pieces[0]["cut"] else pieces[1]["net"]
    pieces[4]["cut"] = pieces[4]["cut"][:1]
    bust = [{"piece": "centre cup", "line": [(0, 10.25 * IN), (3.5 * IN, 10.25 * IN)], "by": "extent", "count": 2},
            {"piece": "side cup", "line": [(3.6 * IN, 10.25 * IN), (9.6 * IN, 10.0 * IN)], "by": "extent", "count": 2},
            {"piece": "back", "line": [(0, 9.6 * IN), (8.7 * IN, 9.6 * IN)], "by": "extent", "count": 2}, {"gap": IN}]
    return {
        "order": "S-014", "engine": "1", "units": "mm",
        "garment": {"kind": "bustier-gown", "title": "Strapless gown", "summary": "straight top edge and waist, A-line skirt, laced, lined"},
        "measures": {key: {"value": value * IN, "estimated": key in ("neck", "across_back")} for key, value in MEASURES.items()},
        "levels": {}, "side_levels": {},
        "girths": [
            {"level": "bust", "body": 38.5 * IN, "ease": 0.375 * IN, "wadding": 0.375 * IN, "finished": 38.875 * IN, "across": bust},
            {"level": "under_bust", "body": 33 * IN, "ease": 0.0, "wadding": 0.0, "finished": 33 * IN, "across": []},
            {"level": "waist", "body": 30.25 * IN, "ease": 0.0, "wadding": 0.0, "finished": 30.25 * IN, "across": []},
            {"level": "hip", "body": 41 * IN, "ease": 2 * IN, "wadding": 0.0, "finished": 43 * IN, "across": []},
        ],
        "pieces": pieces,
        "seams": [
            _seam("cup seam", [("centre cup", "cup seam")], [("side cup", "cup seam")], 6.125),
            _seam("cups with band", [("centre cup", "under-bust"), ("side cup", "under-bust")], [("band", "under-bust")], 8.0),
            _seam("side seam, top", [("side cup", "side"), ("band", "side")], [("back", "side")], 7.5),
            _seam("waist, front", [("band", "waist")], [("skirt front", "waist")], 7.25),
            _seam("waist, back", [("back", "waist 1"), ("back", "waist 2")], [("skirt back", "waist 1"), ("skirt back", "waist 2")], 7.05),
            _seam("side seam, skirt", [("skirt front", "side")], [("skirt back", "side")], 40.125),
            _seam("lining at the top edge", [("centre cup", "top"), ("side cup", "top")], [("centre cup", "top")], 8.7, ease=-0.125),
        ],
        "bones": [
            {"piece": "band", "place": "centre front", "pieces": ["centre cup", "band"], "from": (0, 13.3 * IN), "to": (0, 15.9 * IN),
             "channel": 8.4 * IN, "bone": 7.875 * IN, "casing": 9.4 * IN, "count": 1},
            {"piece": "band", "place": "under the cup seam", "pieces": ["band"], "from": (2.75 * IN, 13.3 * IN), "to": (2.75 * IN, 15.9 * IN),
             "channel": 2.6 * IN, "bone": 2.125 * IN, "casing": 3.6 * IN, "count": 2},
            {"piece": "side cup", "place": "side seams", "pieces": ["side cup", "band"], "from": (9.6 * IN, 7.5 * IN), "to": (9.35 * IN, 12.3 * IN),
             "channel": 7.5 * IN, "bone": 7 * IN, "casing": 8.5 * IN, "count": 2},
            {"piece": "back", "place": "beside the lacing", "pieces": ["back"], "from": (0.6 * IN, 7.5 * IN), "to": (0.6 * IN, 14.7 * IN),
             "channel": 7.2 * IN, "bone": 6.75 * IN, "casing": 8.2 * IN, "count": 4},
        ],
        "lays": [],
        "materials": [
            {"item": "bone", "amount": 54 * IN, "unit": "mm", "count": 9},
            {"item": "casing strip, 1½ wide", "amount": 67 * IN, "unit": "mm", "count": 1},
            {"item": "bone tips", "amount": 18, "unit": "pieces", "count": 1},
            {"item": "lacing loops", "amount": 7, "unit": "pieces", "count": 2},
            {"item": "lacing cord", "amount": 5 * 36 * IN, "unit": "mm", "count": 1},
            {"item": "waist stay ribbon", "amount": 31 * IN, "unit": "mm", "count": 1},
        ],
        "steps": [
            {"piece": piece_, "number": n, "text": text, "marks": [], "points": [], "why": why}
            for n, (piece_, text, why) in enumerate(STEPS, 1)
        ],
        "making": [{"number": n, "text": text} for n, text in enumerate(MAKING, 1)],
        "warnings": [{"code": "estimated", "text": "Neck and across back are estimated: take them at the fitting."}],
        "checks": [
            {"check": "seam cup seam", "pass": True, "figure": 0.02, "limit": 0.5, "unit": "mm"},
            {"check": "girth bust", "pass": True, "figure": 0.1, "limit": 1.27, "unit": "mm"},
        ],
        "cautions": CAUTIONS,
        "rules": {"seam_allowance": 0.5 * IN, "let_out": IN, "centre_back_allowance": IN, "hem": 2 * IN, "bone_width": 0.25 * IN},
        "not_for_cutting": False, "toile_only": False,
    }


def sample_order(**changes) -> dict:
    """Return a fresh order file of the sample gown; `changes` replace its keys."""
    return {
        "order": "S-014", "client": "Ines", "units": "in", "measured_on": "2026-03-02",
        "measures": {key: value for key, value in MEASURES.items() if key not in ("neck", "across_back")},
        "garment": {"kind": "bustier-gown", "fit": "close", "top_edge": "straight", "yoke": "none", "waist": "straight",
                    "skirt": {"kind": "a-line", "length": 38}, "sleeve": None, "closure": "back-lacing", "lined": True},
        "cloths": [
            {"name": "brocade", "for": ["shell"], "width": 55, "on_hand": "4yd", "one_way": True, "shrink": 0.03},
            {"name": "lawn", "for": ["lining"], "width": 44},
            {"name": "woven fusible", "for": ["stay"], "width": 36},
            {"name": "cotton batting", "for": ["wadding"], "width": 60},
        ],
        "dates": {"booked": "2026-02-20", "cut": "2026-03-13", "fittings": ["2026-03-06", "2026-03-20"], "collect": "2026-03-28"},
        "notes": ["waist seam to sit on the belt mark"],
        "fit_notes": [{"place": "side waist", "side": "both", "amount": "-1/4"}],
        **changes,
    }  # fmt: skip
