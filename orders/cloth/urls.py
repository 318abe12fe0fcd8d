"""The addresses of the market list and of the cloth shelf."""

from django.urls import path

from orders.views import market, shelf

of_cloth = [
    path("market/", market.show, name="market"),
    path("market/tick/", market.tick, name="market-tick"),
    path("shelf/", shelf.show, name="shelf"),
    path("shelf/add/", shelf.add, name="add-to-shelf"),
    path("shelf/<int:pk>/", shelf.card, name="shelf-card"),
    path("shelf/<int:pk>/check/", shelf.check, name="check-cloth"),
    path("shelf/<int:pk>/left/", shelf.left, name="cloth-left"),
    path("shelf/<int:pk>/put/", shelf.put, name="put-cloth"),
    path("shelf/<int:pk>/whose/", shelf.whose, name="whose-cloth"),
    path("shelf/<int:pk>/settle/<slug:which>/", shelf.settle, name="settle-cloth"),
    path("shelf/<int:pk>/end/<slug:how>/", shelf.end, name="end-cloth"),
    path("<slug:number>/cloth/<int:pk>/receive/", shelf.receive, name="receive-cloth"),
]
