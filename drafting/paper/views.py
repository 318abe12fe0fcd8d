"""A draft's Papers page, and each paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from drafting.models import KeptDraft
from drafting.paper.about import About
from drafting.paper.address import order_address, order_path, site_of
from drafting.paper.choice import Choice, NothingChosen
from drafting.paper.forms import ChoiceForm, SquareForm
from drafting.paper.making import TYPES, make, slug_of
from drafting.paper.papers import UnknownPaper
from drafting.paper.papers_page import newer_than, papers_page
from drafting.paper.spread import DoesNotFit
from drafting.paper.test_square import percentage_words
from drafting.pdf import CannotPrint
from drafting.views import ascii_name
from workshop.access import needs
from workshop.models import Workshop


@require_safe
@needs("print_sheets")
def papers(request: HttpRequest, pk: int) -> HttpResponse:
    draft, workshop = get_object_or_404(KeptDraft, pk=pk), Workshop.current()
    form, square = ChoiceForm(request.GET, result=draft.result), SquareForm(request.GET, unit=workshop.unit)
    good = form.is_valid()
    choice = form.choice() if good else Choice()
    query = request.GET.copy()
    query.pop("square", None)
    page = papers_page(draft, query=query.urlencode() if good else "", slug=slug_of(choice), paper=workshop.paper)
    written = square.is_valid() and square.cleaned_data["square"]
    answer = percentage_words(written, workshop.unit) if written else ""
    shown = {"draft": draft, "page": page, "form": form, "square": square, "answer": answer, "order_path": order_path(draft)}
    return render(request, "paper/papers.html", shown, status=200 if good else 422)


@require_safe
@needs("print_sheets")
def paper(request: HttpRequest, pk: int, name: str) -> HttpResponse:
    draft = get_object_or_404(KeptDraft, pk=pk)
    form = ChoiceForm(request.GET, result=draft.result)
    if not form.is_valid():
        return _refused(request, draft, "A layer or a piece was chosen that this draft has not. Choose again.", 422)
    try:
        content = make(draft, name, choice=form.choice(), about=_about(request, draft), paper=Workshop.current().paper)
    except KeyError:
        return _refused(request, draft, f"There is no paper called “{name}”.", 404)
    except (NothingChosen, DoesNotFit, UnknownPaper) as bad:
        return _refused(request, draft, str(bad), 404 if isinstance(bad, UnknownPaper) else 422)
    except CannotPrint as missing:
        return _refused(request, draft, str(missing), 503)
    suffix = name.rpartition(".")[2]
    answer = HttpResponse(content, content_type=TYPES[suffix])
    way = "inline" if suffix == "pdf" else "attachment"
    file_name = ascii_name(f"{draft.order_ref} draft {draft.number} {name}")
    answer.headers["Content-Disposition"] = f'{way}; filename="{file_name}"'
    return answer


def _refused(request: HttpRequest, draft: KeptDraft, why: str, status: int) -> HttpResponse:
    return render(request, "paper/no_paper.html", {"draft": draft, "why": why}, status=status)


def _about(request: HttpRequest, draft: KeptDraft) -> About:
    workshop = Workshop.current()
    return About(
        workshop_name=workshop.name,
        draft_number=draft.number,
        digest=draft.digest,
        newer=newer_than(draft),
        address=order_address(site_of(request), draft),
        days_in=workshop.days_in,
    )
