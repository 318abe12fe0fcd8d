"""A quote and a receipt as paper: half a sheet, to print or to send as a picture."""

from datetime import date
from decimal import Decimal
from io import BytesIO

from django.db.models import Sum
from django.template.loader import render_to_string

from drafting.pdf import press_sized
from orders.models import Payment, Quote, Receipt
from orders.money.receipts import payer_of
from workshop.models import Workshop
from workshop.money import print_money

HALF_SHEETS = {"A4": "148mm 210mm", "Letter": "5.5in 8.5in"}
#: Points in an inch, and the dots of a picture that a phone shows sharply at its full width.
POINTS, DOTS = 72, 160


def quote_paper(quote: Quote) -> bytes:
    """The quote's PDF, from what it said on its day. Raises CannotPrint."""
    says = quote.says
    paid = Decimal(says.get("paid", 0))
    shown = {
        "quote": quote,
        "workshop": Workshop.current(),
        "says": says,
        "cloths": [(label, how, print_money(Decimal(amount), quote.currency)) for label, how, amount in says["cloths"]],
        "cloth": print_money(Decimal(says["cloth"]), quote.currency),
        "making": print_money(Decimal(says["making"]), quote.currency),
        "price": print_money(quote.price, quote.currency),
        "paid": print_money(paid, quote.currency) if paid > 0 else "",
        "deposit": print_money(quote.deposit - paid, quote.currency) if quote.deposit > paid else "",
        "rest": print_money(max(quote.price - max(quote.deposit, paid), Decimal(0)), quote.currency),
        "instalments": [(date.fromisoformat(each["on"]), print_money(Decimal(each["amount"]), quote.currency)) for each in says["instalments"]],
        "collect_on": date.fromisoformat(says["collect_on"]) if says["collect_on"] else None,
    }
    return press_half(render_to_string("orders/papers/quote.html", shown))


def receipt_paper(receipt: Receipt, payment: Payment) -> bytes:
    """The receipt's PDF; of a payment that was struck it says so. Raises CannotPrint."""
    return press_half(render_to_string("orders/papers/receipt.html", receipt_shown(receipt, payment)))


def receipt_shown(receipt: Receipt, payment: Payment) -> dict:
    """What a receipt says, on a page and on paper: of one payment, or of all entries of one sum."""
    parts, currency = payment.in_one_sum(), Workshop.current().currency
    so_far = payment.order.payments.filter(pk__lte=payment.pk).aggregate(sum=Sum("amount"))["sum"] or Decimal(0)
    return {
        "receipt": receipt,
        "payment": payment,
        "order": payment.order,
        "payer": payer_of(payment.order),
        "workshop": Workshop.current(),
        "parts": [(part, print_money(part.amount, currency)) for part in parts] if len(parts) > 1 else [],
        "amount": print_money(sum(part.amount for part in parts), currency),
        "so_far": print_money(so_far, currency),
        "other": in_other_currency(parts),
        "struck": [part.reversed_by for part in parts if part.is_reversed],
    }


def in_other_currency(parts: list[Payment]) -> str:
    """“US$120 at 0.79 £ for 1”: what changed hands where it was another currency; nothing else."""
    first = parts[0]
    if not first.other_currency:
        return ""
    own = Workshop.current().currency
    worth = print_money(first.rate, own) if first.rate == first.rate.quantize(Decimal("0.01")) else f"{first.rate.normalize():f} {own}"
    whole = print_money(sum(abs(part.other_amount) for part in parts), first.other_currency)
    return f"{whole} ({first.other_currency}) at {worth} for 1 {first.other_currency}"


def press_half(html: str) -> bytes:
    return press_sized(html, size=HALF_SHEETS[Workshop.current().paper], style="money_paper.css")


def picture_of(paper: bytes) -> bytes:
    """The paper as one PNG, its pages below one another."""
    import pypdfium2
    from PIL import Image

    pdf = pypdfium2.PdfDocument(paper)
    pages = [page.render(scale=DOTS / POINTS).to_pil().convert("L") for page in pdf]
    pdf.close()
    whole = Image.new("L", (max(page.width for page in pages), sum(page.height for page in pages)), 255)
    top = 0
    for page in pages:
        whole.paste(page, (0, top))
        top += page.height
    out = BytesIO()
    whole.save(out, "PNG", optimize=True)
    return out.getvalue()
