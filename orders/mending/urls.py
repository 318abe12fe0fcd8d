"""The addresses of alterations and repairs."""

from django.urls import path

from orders.views import mending, photo_marks

of_mending = [
    path("repair/", mending.take_in, name="take-in"),
    path("repair/prices/", mending.price_list, name="repair-prices"),
    path("repair/prices/add/", mending.add_line, name="add-repair-price"),
    path("repair/prices/<int:pk>/", mending.change_line, name="repair-price"),
    path("repair/prices/<int:pk>/remove/", mending.remove_line, name="remove-repair-price"),
    path("photo/<int:pk>/marks/", photo_marks.mark, name="photo-marks"),
    path("<slug:number>/job/", mending.add_job, name="add-job"),
    path("<slug:number>/job/<int:pk>/", mending.edit_job, name="job"),
    path("<slug:number>/job/<int:pk>/remove/", mending.remove_job, name="remove-job"),
    path("<slug:number>/job/<int:pk>/tick/", mending.tick_job, name="tick-job"),
    path("<slug:number>/ticket.pdf", mending.ticket, name="ticket"),
]
