"""What `manage.py doctor` looks at in the book's money: sums that are kept must be those of their rows, and no receipt be without a number."""

from orders.models import Order
from orders.money.receipts import without_number

NAMED = 5


def finding() -> tuple[str, str, bool]:
    """(name, what was found, whether it is in order)."""
    wrong = list(Order.objects.paid_otherwise().order_by("serial").values_list("number", flat=True)[: NAMED + 1])
    missing = without_number().count()
    if wrong:
        named = ", ".join(wrong[:NAMED]) + (" and more" if len(wrong) > NAMED else "")
        return "Money", f"what is written as paid is not what the payments come to: {named}. Rows were written past the program", False
    if missing:
        return "Money", f"what is paid is the sum of the payments on every order; {missing} payments have no receipt number yet", True
    return "Money", "what is paid is the sum of the payments on every order; every payment has its receipt's number", True
