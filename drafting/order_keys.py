"""The words of the order file: its keys and, where a key has fixed values, those values."""

ORDER = ("order", "client", "units", "measured_on", "measures", "garment", "cloths", "dates", "notes", "fit_notes",
         "measures_left", "measures_right")
GARMENT = (
    "kind",
    "fit",
    "top_edge",
    "neckline",
    "collar",
    "darts",
    "panels",
    "yoke",
    "cups",
    "intakes",
    "straps",
    "waist",
    "waist_finish",
    "skirt",
    "trousers",
    "sleeve",
    "closure",
    "facing",
    "length",
    "lined",
    "rules",
)
SKIRT = ("kind", "length", "fraction", "fullness", "gores", "panels", "godets", "sweep", "length_side", "length_back", "train")
SLEEVE = ("kind", "length")
TROUSERS = ("hem", "length")
CLOTH = (
    "name",
    "for",
    "width",
    "on_hand",
    "selvedge",
    "layout",
    "one_way",
    "repeat",
    "repeat_across",
    "match",
    "motifs",
    "first_motif",
    "flaws",
    "shrink",
    "price",
)
MOTIF = ("piece", "at")
DATES = ("booked", "cut", "fittings", "collect")
FIT_NOTE = ("place", "side", "amount")

ONE_SIDED_MEASURES = frozenset({"armhole_depth", "upper_arm", "elbow", "wrist", "sleeve_length",
                                "shoulder_to_elbow"})
"""Measures that may be taken left and right: they move no line on the middle of the body."""

UNITS = ("in", "cm", "mm")
KINDS = ("bustier-gown", "fitted-dress", "bodice", "blouse", "corset", "skirt", "trousers")
FITS = ("corset", "close", "standard", "loose")
TOP_EDGES = ("straight", "sweetheart", "v")
NECKLINES = ("round", "v", "square", "boat")
COLLARS = ("none", "stand", "flat")
FACINGS = ("cut-on", "separate")
DARTS = ("side", "shoulder", "princess-shoulder", "princess-armhole")
CORSET_PANELS = (2, 3, 4)
YOKES = ("none", "full", "neck-frame")
CUPS = ("by-rule", "two", "three")
INTAKES = ("by-rule", "fixed")
STRAPS = ("none", "shoulder")
WAISTS = ("straight", "basque")
WAIST_FINISHES = ("band", "facing", "petersham")
SKIRTS = ("none", "straight", "a-line", "circle", "gathered", "gored", "mermaid")
FRACTIONS = (0.25, 0.5, 0.75, 1)
GORES = (4, 6, 8)
PANELS = (0, 4, 6, 8)
SLEEVES = ("set-in", "fitted", "short", "puff", "bell", "flutter", "cap")
CLOSURES = ("back-zip", "back-lacing", "side-zip", "front-zip", "buttons")
SIDES = ("both", "left", "right")
LAYOUTS = ("open", "folded", "crosswise", "best")

OUTSIDE_PARTS = ("cup", "band", "bodice", "back", "yoke", "skirt", "sleeve")
LAYERS = ("lining", "stay", "wadding")
CLOTH_FOR = (*OUTSIDE_PARTS, "shell", *LAYERS)

RULES = (
    "neck_width",
    "front_neck_depth",
    "back_neck_depth",
    "shoulder_slope",
    "front_share",
    "dart_toward_centre",
    "lower_intake",
    "upper_intake",
    "top_edge_rise",
    "top_edge_dip",
    "top_edge_snug",
    "basque_depth",
    "basque_side",
    "strap_width",
    "waist_stay",
    "seam_allowance",
    "let_out",
    "centre_back_allowance",
    "hem",
    "bone_width",
    "bone_spacing",
    "bone_clearance",
    "wadding_thickness",
    "lacing_gap",
    "lower_edge",
    "button",
    "button_stand",
    "button_spacing",
    "collar_depth",
    "cap_ease",
    "ease_bust",
    "ease_waist",
    "ease_hip",
)
SHARES = frozenset({"front_share"})
"""Rules that are a share of a whole, not a length."""

SIGNED_RULES = frozenset({"ease_bust", "ease_waist", "ease_hip", "dart_toward_centre"})
"""Rules that may be read with a minus; whether the garment can be drafted so is the engine's to say."""
