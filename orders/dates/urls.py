"""The addresses of the calendar, of the bench's days and hours, and of what it can keep."""

from django.urls import path

from orders.views import asking, bench, calendar, feeds, fittings

of_dates = [
    path("calendar/", calendar.this_week, name="calendar"),
    path("calendar/week/<str:written>/", calendar.week, name="week"),
    path("calendar/month/<str:written>/", calendar.month, name="month"),
    path("calendar/month/<int:year>/<int:number>/full/", bench.month, name="full-month"),
    path("calendar/links/", feeds.links, name="calendar-links"),
    path("calendar/links/<int:pk>/revoke/", feeds.revoke, name="revoke-link"),
    path("calendar/feed/<str:secret>.ics", feeds.feed, name="feed"),
    path("days-and-hours/", bench.days_and_hours, name="days-and-hours"),
    path("days-and-hours/close/", bench.close, name="close"),
    path("days-and-hours/open/", bench.open_again, name="open-again"),
    path("earliest/", asking.earliest, name="earliest"),
    path("<slug:number>/moves/", asking.moves, name="moves"),
    path("<slug:number>/fitting/<int:pk>/missed/", fittings.missed, name="fitting-missed"),
    path("<slug:number>/garment/<int:pk>/hours/", bench.hours, name="hours"),
]
