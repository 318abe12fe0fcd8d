"""Today is the workshop's first page, so its name has no namespace; all other names are orders:…"""

from django.urls import include, path

from orders.after.urls import of_after
from orders.agreed.urls import of_agreed
from orders.cloth.urls import of_cloth
from orders.dates.urls import of_dates
from orders.mending.urls import of_mending
from orders.money.urls import of_money, of_price
from orders.out.urls import of_out_work
from orders.party.urls import of_parties
from orders.views import (
    at_hand,
    background,
    comparing,
    fittings,
    garments,
    lays,
    making,
    money,
    orders,
    several,
    sheets,
    spoiled,
    stages,
    today,
    together,
    work,
)

of_orders = [
    *of_dates,
    *of_agreed,
    *of_parties,
    *of_mending,
    *of_out_work,
    *of_after,
    *of_cloth,
    *of_price,
    path("", orders.list_orders, name="list"),
    path("at-hand/", at_hand.show, name="at-hand"),
    path("add/<int:client_pk>/", orders.add, name="add"),
    path("day/<str:written>/", today.day, name="day"),
    path("day/<str:written>/sheets.pdf", sheets.day, name="day-sheets"),
    path("day/<str:written>/pack/", background.day_pack, name="pack"),
    path("day/<str:written>/pack/made/", background.day_pack_made, name="pack-made"),
    path("day/<str:written>/pack/stop/", background.stop_pack, name="stop-pack"),
    path("day/<str:written>/pack.pdf", background.pack_file, name="pack-file"),
    path("together/", together.choose, name="together"),
    path("together/made/", together.made, name="together-made"),
    path("together/stop/", together.stop_laying, name="stop-together"),
    path("<slug:number>/", orders.show, name="show"),
    path("<slug:number>/promise/", orders.promise, name="promise"),
    path("<slug:number>/making/", making.making, name="making"),
    path("<slug:number>/garment/<int:pk>/compare/", comparing.compare_drafts, name="compare"),
    path("<slug:number>/garment/<int:pk>/fits-well/", garments.fits_well, name="fits-well"),
    path("<slug:number>/garment/<int:pk>/tick/", making.tick_step, name="tick"),
    path("<slug:number>/sheet.pdf", sheets.sheet, name="sheet"),
    path("<slug:number>/sign-off/", stages.sign_off_order, name="sign-off"),
    path("<slug:number>/cut/", stages.cut_order, name="cut"),
    path("<slug:number>/call-off/", stages.call_off, name="call-off"),
    path("<slug:number>/step/<slug:verb>/", stages.move_on, name="step"),
    path("<slug:number>/garment/<int:pk>/", garments.choose, name="garment"),
    path("<slug:number>/garment/add/", several.add, name="add-garment"),
    path("<slug:number>/garment/<int:pk>/put-away/", several.put_away, name="put-away"),
    path("<slug:number>/garment/<int:pk>/take-up/", several.take_up, name="take-up"),
    path("<slug:number>/garment/<int:pk>/cut/", several.cut, name="cut-garment"),
    path("<slug:number>/garment/<int:pk>/look/", garments.look_at, name="look-at"),
    path("<slug:number>/garment/<int:pk>/redraft/", garments.redraft, name="redraft"),
    path("<slug:number>/garment/<int:pk>/keep-measures/", garments.keep_measures, name="keep-measures"),
    path("<slug:number>/garment/<int:pk>/settled/", garments.settle_cut, name="settle-cut"),
    path("<slug:number>/payment/", money.take, name="payment"),
    path("<slug:number>/payment/<int:pk>/reverse/", money.reverse, name="reverse"),
    path("<slug:number>/payment/<int:pk>/receipt/", at_hand.receipt, name="receipt"),
    path("<slug:number>/cash/", at_hand.take_cash, name="cash"),
    path("<slug:number>/refund/", money.give_back, name="refund"),
    path("<slug:number>/fitting/", fittings.add_fitting, name="add-fitting"),
    path("<slug:number>/fitting/<int:pk>/", fittings.edit_fitting, name="fitting"),
    path("<slug:number>/fitting/<int:pk>/done/", fittings.fitting_done, name="fitting-done"),
    path("<slug:number>/cloth/", work.add_cloth, name="add-cloth"),
    path("<slug:number>/cloth/<int:pk>/", work.edit_cloth, name="cloth"),
    path("<slug:number>/cloth/<int:pk>/try/", lays.try_cloth, name="try-cloth"),
    path("<slug:number>/cloth/<int:pk>/look/", background.look, name="look"),
    path("<slug:number>/cloth/<int:pk>/looked/", background.looked, name="looked"),
    path("<slug:number>/cloth/<int:pk>/look/stop/", background.stop_looking, name="stop-looking"),
    path("<slug:number>/lays/", lays.lays, name="lays"),
    path("<slug:number>/lays/<int:pk>/miscut/", lays.miscut, name="miscut"),
    path("<slug:number>/garment/<int:pk>/spoiled/", spoiled.keep, name="keep-spoiled"),
    path("<slug:number>/spoiled/<int:pk>/undo/", spoiled.undo, name="undo-spoiled"),
    path("<slug:number>/spoiled/<int:pk>/place.pdf", spoiled.place, name="spoiled-place"),
    path("<slug:number>/needs/", lays.needed, name="needs"),
    path("<slug:number>/cloth/<int:pk>/remove/", work.remove_cloth, name="remove-cloth"),
]
urlpatterns = [
    path("", today.show, name="today"),
    path("orders/", include((of_orders, "orders"))),
    path("money/", include((of_money, "money"))),
]
