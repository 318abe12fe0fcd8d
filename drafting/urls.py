from django.urls import path

from drafting import views
from drafting.paper import views as paper_views

app_name = "drafting"
urlpatterns = [
    path("day-sheets.pdf", views.day_sheets, name="day-sheets"),
    path("<int:pk>/", views.show, name="show"),
    path("<int:pk>/sheet.pdf", views.sheet, name="sheet"),
    path("<int:pk>/papers/", paper_views.papers, name="papers"),
    path("<int:pk>/papers/<str:name>", paper_views.paper, name="paper"),
]
