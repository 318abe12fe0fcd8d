"""The addresses of the workshop's own pages: signing in, setting up, settings, people."""

from django.urls import path

from workshop import people_views, views

urlpatterns = [
    path("health/", views.health, name="health"),
    path("sign-in/", views.sign_in, name="sign-in"),
    path("sign-out/", views.sign_out, name="sign-out"),
    path("set-up/", views.set_up, name="set-up"),
    path("you/", views.own_sign_in, name="own-sign-in"),
    path("settings/", views.settings, name="settings"),
    path("settings/people/", people_views.people, name="people"),
    path("settings/people/add/", people_views.add_person, name="add-person"),
    path("settings/people/<int:pk>/", people_views.person, name="person"),
    path("settings/people/<int:pk>/password/", people_views.give_password, name="give-password"),
    path("settings/people/<int:pk>/sign-in/", people_views.let_in, name="let-in"),
]
