"""The addresses of parties and of messages."""

from django.urls import path

from orders.views import parties, stages, texts

of_parties = [
    path("parties/", parties.party_list, name="parties"),
    path("parties/add/", parties.add, name="add-party"),
    path("parties/<int:pk>/", parties.show, name="party"),
    path("parties/<int:pk>/change/", parties.change, name="change-party"),
    path("parties/<int:pk>/join/", parties.join, name="join"),
    path("texts/", texts.own_texts, name="texts"),
    path("texts/<int:pk>/remove/", texts.remove_text, name="remove-text"),
    path("<slug:number>/copy/", stages.copy, name="copy"),
    path("<slug:number>/message/", texts.message, name="message"),
]
