"""Where each measure lies on the figure (templates/clients/_figure_front.html and _figure_back.html).

Top and bottom of its line, in the drawing's own units: the screen crops the figure to that part of the body.
"""

from clients.measures import LEFT

SPANS: dict[str, tuple[int, int]] = {
    "bust": (134, 153), "high_bust": (114, 131), "under_bust": (154, 169), "waist": (183, 198), "hip": (228, 249),
    "neck": (76, 97), "upper_arm": (137, 147), "elbow": (192, 201), "wrist": (240, 247), "thigh": (264, 278), "knee": (347, 361),
    "shoulder": (88, 98), "across_front": (112, 112), "across_back": (112, 112), "bust_span": (146, 146),
    "shoulder_to_bust": (86, 146), "shoulder_to_under_bust": (86, 165), "shoulder_to_waist": (86, 195),
    "nape_to_waist": (80, 187), "armhole_depth": (98, 133), "waist_to_hip": (190, 238), "waist_to_knee": (193, 357),
    "body_rise": (190, 252), "inside_leg": (254, 455),
    "sleeve_length": (98, 244), "shoulder_to_elbow": (98, 195), "height": (14, 462),
    "skirt_length": (195, 420), "dress_length": (86, 420),
}  # fmt: skip
SPANS |= {measure.key: SPANS[measure.right] for measure in LEFT}
