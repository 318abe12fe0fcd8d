"""The demo's people, all invented: the Salt Lane Sewing Room of Skerrow Harbour, and those it sews for.

Telephone numbers are from the range that Ofcom keeps for drama (07700 900000 to 900999).
"""

from dataclasses import dataclass, field

WORKSHOP = {"name": "Salt Lane Sewing Room", "town": "Skerrow Harbour", "currency": "GBP", "unit": "in", "paper": "A4", "bench": {"hands": "2"}}

#: Sign-in name, password, name, role. They are printed for all to read, so the demo serves one machine only.
DEMO_SIGN_INS = (
    ("hester", "tape and chalk, Hester", "Hester", "owner"),
    ("dunya", "tape and chalk, Dunya", "Dunya", "seamstress"),
    ("pim", "tape and chalk, Pim", "Pim", "apprentice"),
)

KEYS = (
    "bust high_bust under_bust waist hip neck upper_arm knee shoulder across_front across_back bust_span shoulder_to_bust "
    "shoulder_to_under_bust shoulder_to_waist nape_to_waist armhole_depth waist_to_hip height"
).split()


@dataclass(frozen=True)
class Sitter:
    """A client: her figures in inches in the order of KEYS, and what an earlier measuring read otherwise."""

    name: str
    phone: str
    figures: str
    days_ago: int
    worn: str = ""
    note: str = ""
    earlier: dict[str, str] = field(default_factory=dict)
    earlier_days_ago: int = 0

    def written(self) -> dict[str, str]:
        return dict(zip(KEYS, (each.replace("+", " ") for each in self.figures.split()), strict=True))

    def written_before(self) -> dict[str, str]:
        return self.written() | self.earlier


CLIENTS = {
    "wren": Sitter(
        "Wren Achterby", "07700 900211",
        "33 31+1/4 28+1/2 25+1/2 35+1/2 13+1/2 9+7/8 13+5/8 14+5/8 13+1/4 13+7/8 6+5/8 9+1/2 12+1/2 17+1/8 15+1/2 5+7/8 7+7/8 63",
        70, worn="no bra",
    ),
    "tamsin": Sitter(
        "Tamsin Pell", "07700 900342",
        "46 43+3/8 39+1/2 39+1/4 48+1/2 16+1/4 13+3/4 15+5/8 17+3/8 16 16+5/8 9+1/4 12+3/4 15+3/4 18+1/4 16 7+1/8 8 64",
        44, worn="strapless bra", note="Rings back after six.",
        earlier={"bust": "45 1/2", "waist": "38 3/4", "hip": "48"}, earlier_days_ago=200,
    ),
    "bea": Sitter(
        "Bea Tollard", "07700 900118",
        "38+1/2 36+1/4 32+1/2 31 41+1/2 14+3/4 11+1/2 14+1/2 16+1/8 14+3/4 15+3/8 7+3/4 11 14 17+1/4 15+3/8 6+3/8 7+3/4 62",
        27, worn="strapless bra",
    ),
    "josefin": Sitter(
        "Josefin Lundmere", "07700 900407",
        "31+1/2 30+1/8 27+1/2 24+1/2 34+1/2 13+1/4 9+1/2 13+1/2 14+1/2 13 13+5/8 6+1/4 9+1/4 12+1/4 18+1/2 17 5+3/4 8+1/2 68+1/2",
        30, worn="no bra",
    ),
    "ines": Sitter(
        "Ines Varrow", "07700 900563",
        "36+1/2 34 30 28+1/2 39 14+1/2 10+7/8 14+1/8 15+1/2 14+1/8 14+3/4 7+1/4 10+3/8 13+3/8 18 16 6+1/4 8+1/8 65",
        1, worn="the long-line bra for the day", note="Left shoulder a little lower.",
        earlier={"bust": "36 1/4", "waist": "28", "hip": "38 3/4", "high_bust": "33 7/8"}, earlier_days_ago=12,
    ),
    "adaeze": Sitter(
        "Adaeze Okwell", "07700 900629",
        "40+1/2 37+3/4 34 33 44 15+1/4 12+1/8 14+7/8 16+3/8 15 15+5/8 8+1/8 11+3/8 14+3/8 18+1/4 16+1/4 6+5/8 8+1/4 66+1/2",
        6, worn="strapless bra",
    ),
    "priya": Sitter(
        "Priya Mandrel", "07700 900784",
        "36 34 31+1/2 29+1/2 37+1/2 14+1/4 10+3/4 13+7/8 15+1/4 13+7/8 14+3/8 7+1/4 10+1/8 13+1/8 16+1/2 14+3/4 6+1/8 7+5/8 61",
        9, worn="no bra", earlier={"waist": "29 1/4", "hip": "37 1/4"}, earlier_days_ago=75,
    ),
    "olayinka": Sitter(
        "Ọláyinká Adéfarẹ", "07700 900835",
        "44 41 36+1/2 36 47 15+3/4 13+1/4 15+3/8 16+7/8 15+3/8 16 8+3/4 12+1/4 15+1/4 18+5/8 16+3/8 6+7/8 8+3/8 67",
        3, worn="strapless bra",
    ),
}  # fmt: skip
