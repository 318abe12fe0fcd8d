"""What the demo has in its book. Days are counted from the day on which it is looked at; before it, they are minus."""

from dataclasses import dataclass, field
from decimal import Decimal

from orders.stages import Stage


@dataclass(frozen=True)
class FittingWanted:
    day: int
    at: tuple[int, int]
    by: str = "dunya"
    note: str = ""


@dataclass(frozen=True)
class Wanted:
    client: str
    title: str
    stage: Stage
    booked: int
    cut: int | None
    collect: int | None
    price: Decimal | None
    deposit: Decimal | None
    options: dict
    cloths: tuple = ()
    fittings: tuple = ()
    payments: tuple = ()
    occasion: int | None = None
    note: str = ""
    is_drafted: bool = True
    is_signed_off: bool = True
    from_earlier: bool = False
    keeps_old: bool = field(default=False)


def gown(fit="close", skirt="a-line", length="40", closure="back-zip", lined="yes") -> dict:
    made = {"fit": fit, "top_edge": "straight", "yoke": "none", "waist": "straight", "skirt.kind": skirt}
    made |= {"skirt.length": length} if skirt != "none" else {}
    return made | {"closure": closure, "lined": lined}


def cloths(outside: str, on_hand: str, *, width="55 in", lining="habotai lining", lining_in="4 yd", one_way=False) -> tuple:
    return (
        (outside, ["shell"], width, on_hand, one_way),
        (lining, ["lining"], "45 in", lining_in, False),
        ("woven fusible", ["stay"], "36 in", "1 yd", False),
        ("cotton wadding", ["wadding"], "60 in", "1/2 yd", False),
    )


ORDERS = (
    Wanted(
        "wren", "Strapless tea gown", Stage.COLLECTED, -62, -48, -20, Decimal(420), Decimal(150),
        gown("standard", "a-line", "28"), cloths("green linen", "4 yd"),
        (FittingWanted(-34, (11, 0), note="Hem up ½."),),
        (("deposit", 150, "cash", -60), ("balance", 270, "card", -20)),
    ),
    Wanted(
        "tamsin", "Evening gown", Stage.READY, -40, -28, -4, Decimal(560), Decimal(200),
        gown("close", "straight", "42", "back-lacing"), cloths("plum crepe", "5 yd", width="60 in"),
        (FittingWanted(-18, (17, 30), note="Let out ¼ at the hip, both sides."), FittingWanted(-9, (17, 30))),
        (("deposit", 200, "transfer", -40), ("part", 300, "transfer", -9)),
    ),
    Wanted(
        "bea", "Dance gown", Stage.SEWN, -26, -16, 2, Decimal(385), Decimal(150),
        gown("close", "a-line", "36"), cloths("slate satin", "5 yd", one_way=True),
        (FittingWanted(-6, (9, 30), "hester", "Top edge snug, good."),),
        (("deposit", 150, "cash", -26), ("part", 150, "card", -6)), occasion=4,
    ),
    Wanted(
        "josefin", "Bustier top", Stage.READY, -29, -19, 1, Decimal(210), Decimal(70),
        gown("close", "none", lined="yes"), cloths("undyed canvas", "1 1/2 yd"),
        (FittingWanted(-11, (12, 0)),),
        (("deposit", 70, "card", -29), ("balance", 140, "card", -2)),
    ),
    Wanted(
        "ines", "Wedding gown", Stage.MEASURED, -20, 2, 16, Decimal(680), Decimal(240),
        gown("close", "a-line", "43", "back-lacing"), cloths("ivory duchess satin", "6 yd", one_way=True),
        (FittingWanted(0, (10, 30), note="Toile."), FittingWanted(11, (16, 30))),
        (("deposit", 240, "cash", -20),), occasion=18, note="Waist seam to sit on the belt mark.\nOwn shoes, 2 in heel.",
        is_signed_off=False, from_earlier=True,
    ),
    Wanted(
        "adaeze", "Red carpet gown", Stage.MEASURED, -14, 0, 20, Decimal(590), Decimal(220),
        gown("close", "a-line", "41"), cloths("garnet brocade", "2 1/4 yd", one_way=True),
        (FittingWanted(7, (12, 0)),), (("deposit", 220, "transfer", -13),), occasion=23,
    ),
    Wanted(
        "priya", "Sunday gown", Stage.MEASURED, -10, 0, 18, Decimal(460), Decimal(160),
        gown("standard", "straight", "27"), cloths("marigold dupion", "3 1/2 yd"),
        (FittingWanted(6, (17, 30), "hester"),), (("deposit", 160, "cash", -9),), note="Leave the let-out at the sides whole.",
    ),
    Wanted(
        "bea", "Summer gown", Stage.CUT, -18, -3, 12, Decimal(340), Decimal(120),
        gown("loose", "a-line", "30"), cloths("striped cotton", "4 yd", width="45 in"),
        (FittingWanted(0, (14, 0), "hester"), FittingWanted(8, (9, 0))), (("deposit", 120, "card", -18),),
    ),
    Wanted(
        "olayinka", "Naming-day gown", Stage.MEASURED, -5, 5, 36, Decimal(720), Decimal(260),
        gown("close", "a-line", "42", "back-lacing"), cloths("indigo aṣọ-òkè", "", width="48 in", lining_in=""),
        (FittingWanted(19, (10, 0)), FittingWanted(29, (10, 0))), (("part", 60, "cash", -5),), occasion=38,
        is_signed_off=False,
    ),
    Wanted(
        "wren", "Corset top", Stage.COLLECTED, -50, -44, -15, Decimal(240), Decimal(80),
        gown("close", "none", closure="back-lacing"), cloths("black coutil", "1 1/2 yd"),
        (FittingWanted(-30, (9, 0)),), (("deposit", 80, "card", -50), ("balance", 160, "card", -15)),
    ),
    Wanted(
        "josefin", "Midsummer gown", Stage.ASKED, -1, None, None, None, None,
        gown("standard", "a-line", "38"), is_drafted=False, note="Something in pale green, for the harbour fair.",
    ),
)  # fmt: skip


@dataclass(frozen=True)
class RepairWanted:
    """Each job: on what, which line of the list, the place it is pinned at and how much, and whether it is done."""

    client: str
    brought_in: str
    came: int
    collect: int
    jobs: tuple
    note: str = ""
    has_tear: bool = False


#: What, price and minutes: invented.
REPAIR_PRICES = (
    ("hem a skirt", Decimal(18), 45),
    ("new zip in a skirt", Decimal(22), 60),
    ("mend a pocket", Decimal(14), 40),
    ("reline a coat", Decimal(95), 300),
)
REPAIRS = (
    RepairWanted(
        "priya", "Navy wool coat", -1, 6, (("navy coat", "mend a pocket", "", "", False), ("navy coat", "reline a coat", "", "", False)),
        note="Lining with the client: plum twill.", has_tear=True,
    ),
    RepairWanted(
        "josefin", "Two school skirts", -3, 4,
        (("grey skirt", "hem a skirt", "hem", "1 1/2", True), ("green skirt", "hem a skirt", "hem", "2", False), ("green skirt", "new zip in a skirt", "", "", False)),
    ),
)  # fmt: skip
#: Of which order, what, to whom, gone and due back in days, and what it costs.
OUT = (
    ("Dance gown", "covered buttons, 12", "the button room, Quay Street", -8, -1, Decimal(24)),
    ("Wedding gown", "beading of the top edge", "Ilse at the net loft", -4, 9, Decimal(140)),
)
SECOND = (("Naming-day gown", "skirt", "Second skirt"),)
TESTS = (
    ("Sunday gown", {"needle": "70 fine", "stitch": "2.5", "heat": "warm", "steam": "dry", "bleeds": "no", "note": "water marks it"}),
    ("Red carpet gown", {"needle": "80", "stitch": "2.8, foot light", "heat": "cool", "steam": "through", "bleeds": "yes", "note": ""}),
)
#: Of which order, and when its toile is fitted; no day: the fitting that is noted as the toile's.
TOILES = (("Wedding gown", None, None), ("Naming-day gown", 3, (11, 0)))
CAME_BACK = (
    (
        "Corset top", -1, 6,
        {"why": "ours", "words": "an eyelet has pulled out at the left back", "to_do": "two eyelets through a new stay", "minutes": 60},
        "⅜ yd of black coutil",
    ),
)  # fmt: skip
