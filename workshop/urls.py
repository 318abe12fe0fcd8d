"""Every address of the workshop; the one module, with settings.py, that names all apps."""

from django.urls import include, path

handler400 = "workshop.broken.refused"
handler500 = "workshop.broken.page"
urlpatterns = [
    path("", include("workshop.house_urls")),
    path("clients/", include("clients.urls")),
    path("drafts/", include("drafting.urls")),
    path("", include("orders.urls")),
]
