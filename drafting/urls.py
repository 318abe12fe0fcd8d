from django.urls import path

from drafting import views

app_name = "drafting"
urlpatterns = [
    path("day-sheets.pdf", views.day_sheets, name="day-sheets"),
    path("<int:pk>/", views.show, name="show"),
    path("<int:pk>/sheet.pdf", views.sheet, name="sheet"),
]
