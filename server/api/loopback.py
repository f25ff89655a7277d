"""Whether a request was made on the server itself, and not passed on to it from elsewhere."""

from ipaddress import ip_address

from fastapi import Request

_PASSED_ON = ("forwarded", "x-forwarded-for", "x-forwarded-host", "x-real-ip")
_OWN_NAMES = ("localhost", "127.0.0.1", "::1")


def from_this_machine(request: Request) -> bool:
    """Say whether a request comes from this machine; one that names another sender was only passed on here."""
    if request.client is None or any(name in request.headers for name in _PASSED_ON):
        return False
    # A name that was made to point here by a page from elsewhere would bring that page's requests with it.
    try:
        return request.url.hostname in _OWN_NAMES and ip_address(request.client.host).is_loopback
    except ValueError:
        return False
