from orders.models.agreed import Look, OrderPhoto, PricedChange
from orders.models.change import Change
from orders.models.feed import CalendarLink
from orders.models.laid import KeptLay
from orders.models.making import Made
from orders.models.order import Order
from orders.models.party import CutPiece, MessageText, Party
from orders.models.payment import Payment
from orders.models.work import Cloth, Fitting, Garment

__all__ = [
    "CalendarLink",
    "Change",
    "Cloth",
    "CutPiece",
    "Fitting",
    "Garment",
    "KeptLay",
    "Look",
    "Made",
    "MessageText",
    "Order",
    "OrderPhoto",
    "Party",
    "Payment",
    "PricedChange",
]
