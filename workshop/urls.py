"""Every address of the workshop; the one module, with settings.py, that names all apps."""

from importlib.util import find_spec

from django.urls import include, path

urlpatterns = [
    *([path("", include("workshop.house_urls"))] if find_spec("workshop.house_urls") else []),
    path("clients/", include("clients.urls")),
    path("drafts/", include("drafting.urls")),
    path("", include("orders.urls")),
]
