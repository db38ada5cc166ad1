"""Where the package's own pages and assets lie: inside an installed wheel, or beside the package in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).parent
TRANSLATIONS = _PACKAGE / "translations"


def folder(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name
