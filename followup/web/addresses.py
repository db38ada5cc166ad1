"""Addresses for templates: as Flask's `url_for` makes them, but with each page's rule read once.

A page holds a hundred of them, and `url_for` weighs every rule anew for each.
"""

import re
from typing import Any
from urllib.parse import quote, urlencode

from flask import Flask, request

_NAMED = re.compile(r"<(?:path:)?(\w+)>")
_IN_PATH, _IN_QUERY = "!$&'()*+,/:;=@", "!$'()*,/:;?@"  # what may stand as it is, as werkzeug has it


class Addresses:
    """`url_for` of an application whose routes are all registered."""

    def __init__(self, app: Flask) -> None:
        self._any = app.url_for
        rules = {endpoint: list(app.url_map.iter_rules(endpoint)) for endpoint in app.view_functions}
        alone = {endpoint: found[0].rule for endpoint, found in rules.items() if len(found) == 1 and not found[0].defaults}
        shapes = {endpoint: (_NAMED.sub("%s", rule), _NAMED.findall(rule)) for endpoint, rule in alone.items()}
        self._shapes = {endpoint: shape for endpoint, shape in shapes.items() if "<" not in shape[0]}

    def __call__(self, endpoint: str, **values: Any) -> str:
        """The path of a page of this application, with whatever is no part of it as its query."""
        path, names = self._shapes.get(endpoint, ("", ()))
        plain = all(type(value) in (str, int) and name[0] != "_" for name, value in values.items())
        if not (path and plain and values.keys() >= set(names)):
            return self._any(endpoint, **values)
        parts = tuple(quote(str(values.pop(name)), safe=_IN_PATH) for name in names)
        return request.script_root + path % parts + (f"?{urlencode(values, safe=_IN_QUERY)}" if values else "")
