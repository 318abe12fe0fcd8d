"""What the demo has beside its gowns: repairs and their prices, work given out, a second garment, tests of cloth, a complaint."""

from datetime import date, datetime, time, timedelta
from io import BytesIO

from django.db.models import F
from django.utils import timezone

from clients.fit_notes import as_our_own
from orders import photos
from orders.after import complaints
from orders.booking import book_fitting
from orders.cloth import testing
from orders.demo.in_the_book import CAME_BACK, OUT, REPAIR_PRICES, REPAIRS, SECOND, TESTS, TOILES
from orders.garment.making_draft import make_draft
from orders.garment.several import add_garment
from orders.mending import tickets
from orders.models import ClothTest, Complaint, Garment, Mending, Order, OrderPhoto, OutWork, RepairPrice
from orders.out.giving_out import give_out
from workshop.length import parse_length


def put_beside(clients: dict, people: dict, today: date, on) -> None:
    """`on` gives the open day that lies so many days from today."""
    hester, dunya, pim = people["hester"], people["dunya"], people["pim"]
    orders = {order.title: order for order in Order.objects.with_work()}
    lines = {what: RepairPrice.objects.create(what=what, price=price, minutes=minutes) for what, price, minutes in REPAIR_PRICES}
    for wanted in REPAIRS:
        take_in(wanted, clients[wanted.client], lines, dunya, pim, today, on)
    for title, what, to_whom, gone, due, cost in OUT:
        give_out(order=orders[title], values={"what": what, "to_whom": to_whom, "gone_on": on(gone), "due_back": on(due), "cost": cost}, by=dunya)
    for title, kind, name in SECOND:
        garment = add_garment(order=orders[title], kind=kind, title=name, by=dunya)
        make_draft(garment=garment, by=dunya)
    for title, values in TESTS:
        cloth = orders[title].cloths.select_related("order").first()
        testing.write_down(cloth=cloth, values=values, by=pim, today=today)
    for title, day, at in TOILES:
        order = Order.objects.get(pk=orders[title].pk)
        order.toile_wanted = True
        order.keep("toile_wanted", by=hester)
        if day is None:
            order.fittings.filter(note="Toile.").update(is_toile=True)
        else:
            moment = timezone.make_aware(datetime.combine(on(day), time(*at)))
            book_fitting(order=order, at=moment, by=dunya, note="Toile.", is_toile=True, booked_by=dunya)
    for title, told, by_when, given, leftovers in CAME_BACK:
        order = Order.objects.get(pk=orders[title].pk)
        complaints.give_back(order=order, leftovers=leftovers, leftovers_on=order.closed_on, by=dunya)
        complaints.take_back(order=order, by_when=on(by_when), by=hester, today=on(told), **given)


def take_in(wanted, client, lines: dict, by, sewer, today: date, on) -> None:
    order = tickets.take_in(
        client=client, brought_in=wanted.brought_in, collect_on=on(wanted.collect), note=wanted.note, photo=None, by=by, today=on(wanted.came)
    )
    if wanted.has_tear:
        photo = photos.keep(order=order, jpeg=torn_cloth(), shows=OrderPhoto.Shows.ARRIVED, caption="left pocket", by=by, on=order.booked_on)
        photo.marks = [{"kind": "ring", "at": [[520, 380], [690, 380]]}]
        photo.save(update_fields=["marks"])
    for on_what, what, place, amount, is_done in wanted.jobs:
        line = lines[what]
        values = {"on_what": on_what, "what": what, "price": line.price, "minutes": line.minutes}
        if place:
            values |= {"place": place, "amount_written": amount, "amount_mm": parse_length(amount, "in")}
        job = tickets.add_job(order=order, values=values, by=by)
        if is_done:
            tickets.tick(job=job, done=True, by=sewer)


def torn_cloth() -> bytes:
    """A photograph of ours that is none: a woven cloth with a tear, drawn."""
    from PIL import Image, ImageDraw

    picture = Image.new("RGB", (720, 540), (38, 48, 78))
    draw = ImageDraw.Draw(picture)
    for at in range(0, 1260, 9):
        draw.line([(at, 0), (at - 540, 540)], fill=(52, 63, 96), width=3)
    draw.rectangle([190, 150, 560, 430], outline=(24, 31, 54), width=6)
    draw.line([(352, 236), (370, 262), (361, 284), (388, 312)], fill=(205, 196, 178), width=7)
    made = BytesIO()
    picture.save(made, "JPEG", quality=85)
    made.name = "cloth.jpg"
    made.size = made.tell()
    made.seek(0)
    return as_our_own(made)


def bring_along(by: timedelta) -> None:
    """Move the days of all this by as many days as the demo's promises."""
    OutWork.objects.update(gone_on=F("gone_on") + by, due_back=F("due_back") + by)
    Complaint.objects.update(told_on=F("told_on") + by, by_when=F("by_when") + by)
    Garment.objects.exclude(was_cut_on=None).update(was_cut_on=F("was_cut_on") + by)
    ClothTest.objects.update(tested_on=F("tested_on") + by)
    Mending.objects.exclude(done_at=None).update(done_at=F("done_at") + by)
    Order.objects.exclude(leftovers_on=None).update(leftovers_on=F("leftovers_on") + by)
