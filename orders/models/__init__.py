from orders.models.agreed import Look, OrderPhoto, PricedChange
from orders.models.change import Change
from orders.models.cloth import Cloth, ClothTest
from orders.models.complaint import Complaint
from orders.models.elsewhere import OutWork
from orders.models.feed import CalendarLink
from orders.models.laid import KeptLay
from orders.models.making import Made
from orders.models.mending import Mending, RepairPrice
from orders.models.order import Order
from orders.models.party import CutPiece, MessageText, Party
from orders.models.payment import Payment
from orders.models.pricing import Counter, PriceLine, Quote, Receipt
from orders.models.shelf import Bought, ShelfAct, ShelfCloth
from orders.models.spoiled import SpoiledPiece
from orders.models.work import Fitting, Garment

__all__ = [
    "Bought",
    "CalendarLink",
    "Change",
    "Cloth",
    "ClothTest",
    "Complaint",
    "Counter",
    "CutPiece",
    "Fitting",
    "Garment",
    "KeptLay",
    "Look",
    "Made",
    "Mending",
    "MessageText",
    "Order",
    "OrderPhoto",
    "OutWork",
    "Party",
    "Payment",
    "PriceLine",
    "PricedChange",
    "RepairPrice",
    "Quote",
    "Receipt",
    "ShelfAct",
    "ShelfCloth",
    "SpoiledPiece",
]
