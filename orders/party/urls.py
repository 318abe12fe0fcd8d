"""The addresses of parties, messages and the cutting table."""

from django.urls import path

from orders.views import cutting_day, cutting_table, parties, stages, texts

of_parties = [
    path("parties/", parties.party_list, name="parties"),
    path("parties/add/", parties.add, name="add-party"),
    path("parties/<int:pk>/", parties.show, name="party"),
    path("parties/<int:pk>/change/", parties.change, name="change-party"),
    path("parties/<int:pk>/join/", parties.join, name="join"),
    path("texts/", texts.own_texts, name="texts"),
    path("texts/<int:pk>/remove/", texts.remove_text, name="remove-text"),
    path("cutting/<str:written>/", cutting_day.show, name="cutting-day"),
    path("cutting/<str:written>/<slug:number>/", cutting_day.all_the_same, name="all-the-same"),
    path("<slug:number>/cutting/", cutting_table.table, name="cutting-table"),
    path("<slug:number>/garment/<int:pk>/cut-piece/", cutting_table.tick_piece, name="cut-piece"),
    path("<slug:number>/copy/", stages.copy, name="copy"),
    path("<slug:number>/message/", texts.message, name="message"),
]
