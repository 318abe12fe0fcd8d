from orders.models.agreed import Look, OrderPhoto, PricedChange
from orders.models.change import Change
from orders.models.feed import CalendarLink
from orders.models.laid import KeptLay
from orders.models.making import Made
from orders.models.order import Order
from orders.models.payment import Payment
from orders.models.work import Cloth, Fitting, Garment

__all__ = [
    "CalendarLink",
    "Change",
    "Cloth",
    "Fitting",
    "Garment",
    "KeptLay",
    "Look",
    "Made",
    "Order",
    "OrderPhoto",
    "Payment",
    "PricedChange",
]
