"""What the workshop's terms say of a garment that hangs ready and is not collected: after 7, 30 and 90 days by default."""

from orders.money.rules import PriceRules

#: Which of the three days is past: what is to be done, and the ready text for it. Common practice, no source.
SAID = {
    1: "Send word.",
    2: "By the terms keeping it costs from now on. Send word.",
    3: "By the terms it may be sold for what is owed. Send a last word first, and look at what the law says where you work.",
}
TEXTS = {1: "uncollected-first", 2: "uncollected-second", 3: "uncollected-last"}


def step_of(days: int) -> int:
    """1, 2 or 3 for the last of the terms' days that is past; 0 before the first."""
    return sum(days >= each for each in PriceRules.current().uncollected)
