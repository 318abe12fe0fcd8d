"""The addresses of money over all orders."""

from django.urls import path

from orders.views import books, instalments, money, money_papers, prices

of_money = [
    path("", books.money, name="books"),
    path("rules/", prices.prices_and_terms, name="rules"),
    path("done/", books.done, name="done"),
    path("<int:year>/", books.year, name="year"),
    path("<int:year>/payments.csv", books.bookkeeper, name="bookkeeper"),
]
of_price = [
    path("paid-by/<int:pk>/", money.take_for_several, name="payment-for-several"),
    path("<slug:number>/price/", prices.price, name="price"),
    path("<slug:number>/price/lines/", prices.set_lines, name="price-lines"),
    path("<slug:number>/price/own/", prices.add_line, name="price-own"),
    path("<slug:number>/instalments/", instalments.agree, name="instalments"),
    path("<slug:number>/quote/", prices.make_quote, name="make-quote"),
    path("<slug:number>/quote/<int:pk>/agree/", prices.agree_quote, name="agree-quote"),
    path("<slug:number>/quote/<int:pk>/take-back/", prices.take_back_quote, name="take-back-quote"),
    path("<slug:number>/quote/<int:pk>/quote.<slug:kind>", prices.quote_file, name="quote-file"),
    path("<slug:number>/payment/<int:pk>/receipt.<slug:kind>", money_papers.receipt_file, name="receipt-file"),
]
