"""What a browser may load and run on our pages: our own files, and nothing else."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "font-src 'self'",
        "img-src 'self' data: blob:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
PERMISSIONS = "camera=(), microphone=(), geolocation=(), payment=(), usb=()"


class ContentSecurityMiddleware:
    """Sends the policy with each answer, and keeps pages with personal data out of shared caches."""

    def __init__(self, get_response: Callable):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["Permissions-Policy"] = PERMISSIONS
        response.headers.setdefault("Cache-Control", "private, no-store")
        return response
