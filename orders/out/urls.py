"""The addresses of work given out."""

from django.urls import path

from orders.views import out_work

of_out_work = [
    path("<slug:number>/out/", out_work.add, name="give-out"),
    path("<slug:number>/out/<int:pk>/", out_work.edit, name="out-work"),
    path("<slug:number>/out/<int:pk>/back/", out_work.back, name="out-back"),
]
