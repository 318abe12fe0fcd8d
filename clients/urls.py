"""The addresses of the measure book."""

from django.urls import path

from clients import measuring_views, views

app_name = "clients"
urlpatterns = [
    path("", views.list_clients, name="list"),
    path("add/", views.add, name="add"),
    path("<int:pk>/", views.show, name="show"),
    path("<int:pk>/edit/", views.edit, name="edit"),
    path("<int:pk>/measure/", measuring_views.measure, name="measure"),
    # The history table, with hundreds of them, makes these addresses from the list's own.
    path("readings/<int:pk>/correct/", measuring_views.correct, name="correct"),
]
