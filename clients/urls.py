"""The addresses of the measure book."""

from django.urls import path

from clients import csv_views, fit_views, history_views, mark_views, measuring_views, phone_views, views

app_name = "clients"
urlpatterns = [
    path("", views.list_clients, name="list"),
    path("add/", views.add, name="add"),
    path("<int:pk>/", views.show, name="show"),
    path("<int:pk>/edit/", views.edit, name="edit"),
    path("<int:pk>/measure/", measuring_views.measure, name="measure"),
    path("<int:pk>/take/", phone_views.take, name="take"),
    path("<int:pk>/compare/", history_views.compare, name="compare"),
    path("<int:pk>/over-time/<str:key>/", history_views.over_time, name="over-time"),
    path("measures.csv", csv_views.all_out, name="csv-all"),
    path("<int:pk>/measures.csv", csv_views.out, name="csv-out"),
    path("<int:pk>/file/", csv_views.bring_in, name="csv-in"),
    path("<int:pk>/paper-card/", csv_views.paper_card, name="paper-card"),
    path("<int:pk>/fit/", fit_views.add, name="fit-note"),
    path("fit/<int:pk>/switch/", fit_views.switch, name="fit-switch"),
    path("fit/<int:pk>/photo/", fit_views.photo, name="fit-photo"),
    path("fit/<int:pk>/marks/", mark_views.mark, name="fit-marks"),
    path("phone/who/", phone_views.who, name="who"),
    path("phone/at-hand/", phone_views.at_hand, name="at-hand"),
    path("phone/worker.js", phone_views.worker, name="worker"),
    path("phone/ours/<slug:digest>/measuring.css", phone_views.measuring_styles, name="measuring-styles"),
    path("phone/ours/<slug:digest>/measuring.js", phone_views.measuring_scripts, name="measuring-scripts"),
    path("phone/app.webmanifest", phone_views.manifest, name="manifest"),
    path("phone/off-line/", phone_views.off_line, name="off-line"),
    # The history table, with hundreds of them, makes these addresses from the list's own.
    path("readings/<int:pk>/correct/", measuring_views.correct, name="correct"),
]
