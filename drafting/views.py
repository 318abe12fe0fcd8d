"""The Draft page, its job sheet, and several sheets in one file."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from drafting import sheets
from drafting.draft_page import GROUPS, draft_page
from drafting.models import KeptDraft
from drafting.paper.address import order_address, order_path, site_of
from drafting.paper.papers_page import newer_than
from workshop.access import needs
from workshop.models import Workshop


@require_safe
@needs("see_work")
def show(request: HttpRequest, pk: int) -> HttpResponse:
    draft = get_object_or_404(KeptDraft.objects.select_related("made_by"), pk=pk)
    asked = request.GET.get("pieces", "")
    page = draft_page(draft.order_file, draft.result, group=asked if asked in GROUPS else None)
    return render(request, "drafting/show.html", {"draft": draft, "page": page, "order_path": order_path(draft)})


@require_safe
@needs("print_sheets")
def sheet(request: HttpRequest, pk: int) -> HttpResponse:
    draft = get_object_or_404(KeptDraft, pk=pk)
    return _print(request, [draft], f"{draft.order_ref} draft {draft.number}.pdf")


@require_safe
@needs("print_sheets")
def day_sheets(request: HttpRequest) -> HttpResponse:
    """One file of the sheets of ?draft=… &draft=…, in that order."""
    wanted = [int(pk) for pk in request.GET.getlist("draft")[:100] if pk.isascii() and pk.isdigit() and len(pk) < 16]
    found = KeptDraft.objects.in_bulk(wanted)
    drafts = [found[pk] for pk in dict.fromkeys(wanted) if pk in found]
    if not drafts:
        return render(request, "drafting/no_sheets.html", {"why": "No draft was named, so there is nothing to print."}, status=404)
    return _print(request, drafts, "job sheets.pdf")


def _print(request: HttpRequest, drafts: list[KeptDraft], file_name: str) -> HttpResponse:
    workshop, site = Workshop.current(), site_of(request)
    try:
        pages = [
            sheets.job_sheet(
                draft.order_file,
                draft.result,
                workshop_name=workshop.name,
                paper=workshop.paper,
                draft_number=draft.number,
                extra=sheets.SheetExtra(digest=draft.digest, newer=newer_than(draft), address=order_address(site, draft), days_in=workshop.days_in),
            )
            for draft in drafts
        ]
    except sheets.CannotPrint as missing:
        return render(request, "drafting/no_sheets.html", {"why": str(missing)}, status=503)
    pdf = pages[0] if len(pages) == 1 else sheets.day_sheets(pages)
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{ascii_name(file_name)}"'
    return answer


def ascii_name(text: str) -> str:
    """A file's name that any header and any machine can carry."""
    return "".join(c if c.isascii() and (c.isalnum() or c in " -_.") else "_" for c in text)
