"""The addresses of money over all orders."""

from django.urls import path

from orders.views import books

of_money = [
    path("", books.money, name="books"),
    path("<int:year>/", books.year, name="year"),
    path("<int:year>/payments.csv", books.bookkeeper, name="bookkeeper"),
]
