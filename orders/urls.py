"""Today is the workshop's first page, so its name has no namespace; all other names are orders:…"""

from django.urls import include, path

urlpatterns = [
    # path("", today.show, name="today"),
    path("orders/", include(([], "orders"))),
]
