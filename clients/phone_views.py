"""What the phone asks for by itself: who is signed in, what to keep at hand, and the readings that it sends."""

import json
from hashlib import sha256
from pathlib import Path
from uuid import UUID

from django.contrib.auth.models import AnonymousUser
from django.contrib.staticfiles import finders
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_POST, require_safe

from clients import bundle, expected, phone
from clients.models import Client, Measuring
from clients.sending import Refused, answer, forget_old
from workshop.access import needs, open_to_all
from workshop.models import Workshop

#: Beside today's fittings, the phone keeps those whom this person measured last.
AT_HAND = 20
LARGEST_BODY = 20_000
FOR_GOOD = {"Cache-Control": "public, max-age=31536000, immutable"}

#: What the phone keeps of ours beside the measuring page's own, so that its pages open without a network.
SHELL = (
    "css/tokens.css", "css/base.css", "css/layout.css", "css/parts.css", "css/forms.css", "css/print.css",
    "css/tray.css", "css/client.css", "css/at_hand.css", "js/phone.js", "js/tray.js", "js/cash.js",
    "fonts/NotoSans-Regular.woff2", "fonts/NotoSans-Bold.woff2", "fonts/Besley-SemiBold.woff2",
    "icons/icons.svg", "icons/mark.svg",
)  # fmt: skip


@needs("measure")
@require_POST
def take(request: HttpRequest, pk: int) -> HttpResponse:
    """Readings from a phone, once: `Idempotency-Key` says which. 422 with a sentence for what can't be kept."""

    def keep(body: bytes, key: UUID) -> dict:
        client = Client.objects.filter(pk=pk).first()
        if client is None:
            raise Refused("This client is no longer in the book.")
        return phone.keep(phone.read(body), client, by=request.user)

    return answer(request, keep, longest=LARGEST_BODY, too_long="This is more than a card of measures holds.")


@needs("see_work")
@require_safe
def who(request: HttpRequest) -> HttpResponse:
    """Who is signed in, and a fresh token to send with."""
    return JsonResponse({"person": request.user.pk, "csrf": get_token(request)})


@needs("see_work")
@require_safe
def at_hand(request: HttpRequest) -> HttpResponse:
    """What the phone keeps for today: pages to read, and the measuring cards of those who come and of those just measured."""
    today = timezone.localdate()
    forget_old(timezone.now())
    measured = Measuring.objects.filter(taken_by=request.user).newest_first().values_list("client", flat=True)[:AT_HAND]
    wanted = list(dict.fromkeys([*expected.clients_on(today), *measured]))[:AT_HAND] if request.user.may("measure") else []
    names = dict(Client.objects.filter(pk__in=wanted).values_list("pk", "name"))
    clients = [{"name": names[pk], "card": reverse("clients:measure", args=[pk])} for pk in wanted if pk in names]
    return JsonResponse({"pages": expected.pages_to_read(), "clients": clients, "day": today.isoformat()})


def static_folder() -> str:
    """The address below which our own files lie."""
    return static("icons/mark.svg").rpartition("icons/")[0]


@open_to_all
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The part that answers for us when there is no network. It may answer for the whole workshop's address."""
    off_line = reverse("clients:off-line")
    shell = [off_line, *bundle.addresses().values(), *map(static, SHELL)]
    version = sha256(repr(shell).encode()).hexdigest()[:12]
    known = {"shell": shell, "off_line": off_line, "ours": [static_folder(), reverse("clients:measuring-styles", args=["x"]).partition("x/")[0]], "version": version}
    source = Path(finders.find("js/worker.js")).read_text(encoding="utf-8")
    script = HttpResponse(f"const known = {json.dumps(known)};\n{source}", content_type="text/javascript; charset=utf-8")
    script.headers["Service-Worker-Allowed"] = "/"
    script.headers["Cache-Control"] = "no-cache"
    return script


@open_to_all
@require_safe
@gzip_page
def measuring_styles(request: HttpRequest, digest: str) -> HttpResponse:
    return HttpResponse(bundle.styles(), content_type="text/css; charset=utf-8", headers=FOR_GOOD)


@open_to_all
@require_safe
@gzip_page
def measuring_scripts(request: HttpRequest, digest: str) -> HttpResponse:
    return HttpResponse(bundle.scripts(), content_type="text/javascript; charset=utf-8", headers=FOR_GOOD)


@open_to_all
@require_safe
def manifest(request: HttpRequest) -> HttpResponse:
    """What a phone needs to put the workshop among its own apps."""
    workshop = Workshop.current()
    name = workshop.name if workshop else "Chalk & Calendar"
    icons = [{"src": static(f"icons/app-{size}.png"), "sizes": f"{size}x{size}", "type": "image/png"} for size in (192, 512)]
    icons.append({**icons[-1], "purpose": "maskable"})
    told = {
        "name": name, "short_name": name if len(name) <= 12 else "Chalk", "id": "/", "start_url": "/", "scope": "/",
        "display": "standalone", "background_color": "#e8eceb", "theme_color": "#16263d", "icons": icons,
    }  # fmt: skip
    return JsonResponse(told, content_type="application/manifest+json", headers={"Cache-Control": "max-age=3600"})


@open_to_all
@require_safe
def off_line(request: HttpRequest) -> HttpResponse:
    """What stands for a page that the phone has not kept. It holds nothing of anybody."""
    request.user = AnonymousUser()
    return render(request, "clients/off_line.html", {"off_line": True})
