"""A long list, a page at a time."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

LINES = 80
"""On one page: more than a usual day has."""
Line = TypeVar("Line")


@dataclass(frozen=True)
class Page(Generic[Line]):
    """One page of a list: `size` how many lines it holds in all, `page` of `pages`."""

    lines: list[Line]
    size: int
    page: int
    pages: int


def page_of(size: int, page: int, lines: int, read: Callable[[int, int], list[Line]]) -> Page[Line]:
    """The page asked for, or the nearest; `read` gives at most so many lines after so many."""
    pages = max(1, -(-size // lines))
    page = min(max(1, page), pages)
    return Page(read(lines, (page - 1) * lines), size, page, pages)
