"""What installs pages on a device: manifests, and service workers with the list and version of what they keep."""

import hashlib
import json
from collections.abc import Iterable, Sequence
from functools import lru_cache

from flask import Response, render_template, url_for

from followup.resources import TRANSLATIONS, folder
from followup.web import context


def worker(file: str, scope: str, assets: Sequence[str], later: Sequence[str] = ()) -> Response:
    """The worker of `file` (under static/) for the pages under `scope`, keeping these addresses; `later` from the second visit."""
    every = (*assets, *later)
    kept = {
        "version": _version(every, context.settings().clinic.model_dump_json()),
        "assets": list(assets),
        "later": list(later),
        "hashes": _hashes(every),
    }
    code = (folder("static") / file).read_text(encoding="utf-8")
    response = Response(f"const KEPT = {json.dumps(kept)};\n{code}", mimetype="text/javascript")
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Service-Worker-Allowed"] = scope
    return response


def manifest(template: str) -> Response:
    """What makes the pages of one reader installable."""
    response = Response(render_template(template), mimetype="application/manifest+json")
    response.headers["Cache-Control"] = "no-cache"
    return response


def static_addresses(patterns: Iterable[str]) -> list[str]:
    """The addresses of static files by patterns, workers aside."""
    static = folder("static")
    files = sorted(f for pattern in patterns for f in static.glob(pattern) if f.name != "worker.js")
    return [url_for("static", filename=f.relative_to(static).as_posix()) for f in files]


@lru_cache(maxsize=8)
def _hashes(assets: tuple[str, ...]) -> dict[str, str]:
    """Of each static file by its address how its SHA-256 begins: what a browser has of it is taken where it is the same.

    Eight digits tell versions of a file apart; whole hashes do not compress and would be read by every phone.
    """
    prefix = url_for("static", filename="")
    files = {address: folder("static") / address.removeprefix(prefix) for address in assets if address.startswith(prefix)}
    return {address: hashlib.sha256(file.read_bytes()).hexdigest()[:8] for address, file in files.items()}


def _version(assets: tuple[str, ...], clinic: str) -> str:
    """Changes when any kept file, a template, a translation or the clinic's settings change."""
    return hashlib.sha256(_version_of_files(assets).encode() + clinic.encode()).hexdigest()[:12]


@lru_cache(maxsize=8)
def _version_of_files(assets: tuple[str, ...]) -> str:
    digest = hashlib.sha256("".join(assets).encode())
    sources = [*folder("static").rglob("*"), *folder("templates").rglob("*"), *TRANSLATIONS.rglob("*.mo")]
    for file in sorted(f for f in sources if f.is_file()):
        digest.update(file.read_bytes())
    return digest.hexdigest()
