"""What lies outside: push services are reached at public addresses only, whatever a name resolves to and wherever it leads."""

import socket
from ipaddress import IPv4Address, IPv6Address, ip_address
from typing import Any
from urllib.parse import urlsplit
from urllib.request import getproxies

import requests
from requests.adapters import HTTPAdapter
from urllib3.connection import HTTPSConnection
from urllib3.connectionpool import HTTPSConnectionPool

INSIDE_NAMES = (".local", ".internal", ".localhost", ".lan", ".home", ".corp", ".intranet", ".home.arpa", ".onion")
HTTPS = 443


def leads_inside(endpoint: str) -> str | None:
    """Why the server is not sent to this address, or None: public https on its own port, at public numbers only."""
    try:
        address = urlsplit(endpoint)
        host, port = (address.hostname or "").rstrip("."), address.port
    except ValueError:
        return "this is no address"
    if address.scheme != "https" or port not in (None, HTTPS) or address.username is not None:
        return "a push service has an https address without a port"
    if ("." not in host and ":" not in host) or host.endswith(INSIDE_NAMES):
        return "a push service has a public name"
    numeric = socket.AI_NUMERICHOST if _by_proxy() else 0  # a proxy looks names up itself: here they may not be known
    try:
        found = {str(entry[4][0]) for entry in socket.getaddrinfo(host, HTTPS, type=socket.SOCK_STREAM, flags=numeric)}
    except (OSError, UnicodeError):
        return None if numeric else "this name is not known now"
    return None if found and all(_public(number) for number in found) else "this address lies inside"


def session() -> requests.Session:
    """For pushes: follows nobody elsewhere, and speaks to public numbers only.

    Where the environment names a proxy for https, all goes through that, and whom it reaches is for it to decide.
    """
    made = _Straight()
    if _by_proxy():
        return made
    made.trust_env = False
    made.mount("https://", _OutsideOnly())
    del made.adapters["http://"]
    return made


class _Straight(requests.Session):
    def request(self, *args: Any, **kwargs: Any) -> requests.Response:
        return super().request(*args, **{**kwargs, "allow_redirects": False})


class _Connection(HTTPSConnection):
    """Looks whom it reached before it says anything: a name may resolve anew between two looks."""

    def _new_conn(self) -> socket.socket:
        made = super()._new_conn()
        if not _public(str(made.getpeername()[0])):
            made.close()
            raise requests.ConnectionError("this address lies inside")
        return made


class _Pool(HTTPSConnectionPool):
    ConnectionCls = _Connection


class _OutsideOnly(HTTPAdapter):
    def init_poolmanager(self, *args: Any, **kwargs: Any) -> None:
        super().init_poolmanager(*args, **kwargs)
        self.poolmanager.pool_classes_by_scheme = {"https": _Pool}


def _by_proxy() -> bool:
    return "https" in getproxies()


def straight() -> requests.Session:
    """For a demo without TLS, whose push service may be anywhere: redirects are not followed here either."""
    return _Straight()


def _public(number: str) -> bool:
    found: IPv4Address | IPv6Address = ip_address(number.partition("%")[0])
    if isinstance(found, IPv6Address) and found.ipv4_mapped:
        found = found.ipv4_mapped
    return found.is_global and not found.is_multicast
