"""How a page with a form is asked and answered, for every part of the workshop."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

form_page = require_http_methods(["GET", "HEAD", "POST"])


def answer(request: HttpRequest, template: str, shown: dict) -> HttpResponse:
    """The page; 422 where its form (`shown["form"]`) was sent and is shown again because it was refused."""
    return render(request, template, shown, status=422 if shown["form"].is_bound else 200)
