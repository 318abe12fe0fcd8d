"""The addresses of what comes after collection, and of what a scrap of cloth told before it."""

from django.urls import path

from orders.views import after, cloth_tests

of_after = [
    path("<slug:number>/came-back/", after.came_back, name="came-back"),
    path("<slug:number>/leftovers/", after.leftovers, name="leftovers"),
    path("<slug:number>/care-card.pdf", after.care_card, name="care-card"),
    path("<slug:number>/cloth/<int:pk>/test/", cloth_tests.test, name="cloth-test"),
]
