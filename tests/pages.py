"""Pages as a browser reads them: parsed, so that a test asks for elements and never for the way they are written."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}  # HTML 13.1.2
ENDS_ITSELF = {
    "option": {"option", "optgroup"},
    "li": {"li"},
    "td": {"td", "th", "tr"},
    "th": {"td", "th", "tr"},
    "p": {"p"},
}


@dataclass
class Element:
    """A tag, its attributes (an empty text for one without a value), and what is in it in order."""

    tag: str
    attributes: dict[str, str]
    children: "list[Element | str]" = field(default_factory=list)

    def __iter__(self) -> "Iterator[Element]":
        """This element and all in it, in the order of the page."""
        yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child

    def get(self, name: str) -> str:
        return self.attributes.get(name, "")

    @property
    def classes(self) -> list[str]:
        return self.get("class").split()

    @property
    def words(self) -> str:
        """The text of it, with one space where the page has any."""
        parts = (child.words if isinstance(child, Element) else child for child in self.children)
        return " ".join(" ".join(parts).split())

    def all(self, tag: str = "", **attributes: str) -> "list[Element]":
        """The elements in it of a tag, with these attributes (`class_` for one of its classes, `data_x` for data-x)."""
        wanted = {name.rstrip("_").replace("_", "-"): value for name, value in attributes.items()}
        return [found for found in self if tag in ("", found.tag) and all(found._has(*one) for one in wanted.items())]

    def one(self, tag: str = "", **attributes: str) -> "Element":
        """The only element of this kind."""
        (found,) = self.all(tag, **attributes)
        return found

    def _has(self, name: str, value: str) -> bool:
        return value in self.classes if name == "class" else self.attributes.get(name) == value

    @property
    def sends(self) -> dict[str, Any]:
        """What a browser would send of the fields in it, by name; those of several values as a list."""
        found: dict[str, list[str]] = {}
        for control in self:
            name = control.get("name")
            if name and "disabled" not in control.attributes:
                found.setdefault(name, []).extend(control._values())
        return {name: values[0] if len(values) == 1 else values for name, values in found.items() if values}

    def _values(self) -> list[str]:
        if self.tag == "input":
            pressed = self.get("type") in ("submit", "button", "image", "reset")
            ticked = self.get("type") not in ("radio", "checkbox") or "checked" in self.attributes
            return (
                [self.attributes.get("value", "on" if self.get("type") == "checkbox" else "")]
                if ticked and not pressed
                else []
            )
        if self.tag == "textarea":
            return [
                "".join(child for child in self.children if isinstance(child, str)).removeprefix("\r").removeprefix("\n")
            ]
        if self.tag == "select":
            options = self.all("option")
            chosen = [option for option in options if "selected" in option.attributes]
            return [option.attributes.get("value", option.words) for option in chosen or options[:1]]
        return []


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open = [Element("", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self.open[-1].tag in ENDS_ITSELF and tag in ENDS_ITSELF[self.open[-1].tag]:
            self.open.pop()
        made = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].children.append(made)
        if tag not in VOID:
            self.open.append(made)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].children.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if any(known.tag == tag for known in self.open):
            while self.open.pop().tag != tag:
                pass

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)


def parsed(page: str) -> Element:
    """A page, or a part of one."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    return reader.open[0]


def faults_in(page: str) -> dict[str, str]:
    """What is said beside each field that cannot be, by the field's id."""
    beside = [found for found in parsed(page).all(class_="error") if found.get("id").endswith("-error")]
    return {found.get("id").removesuffix("-error"): found.words for found in beside}
