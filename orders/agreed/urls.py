"""The addresses of what is asked and agreed before the first cut."""

from django.urls import path, re_path

from orders.views import agreed

of_agreed = [
    path("enquiry/", agreed.enquiry, name="enquiry"),
    re_path(r"^photo/(?P<pk>[0-9]{1,17})/(?P<size>jpeg|small)/$", agreed.photo, name="photo"),
    path("photo/<int:pk>/remove/", agreed.remove_photo, name="remove-photo"),
    path("<slug:number>/hold/", agreed.hold, name="hold"),
    path("<slug:number>/agreed/", agreed.agreed, name="agreed"),
    path("<slug:number>/agreed/change/", agreed.change_look, name="change-look"),
    path("<slug:number>/photos/", agreed.order_photos, name="photos"),
    path("<slug:number>/history/", agreed.history, name="history"),
]
