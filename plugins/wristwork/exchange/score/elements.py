"""Elements of a score, made one inside the other."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement


def add(parent: Element, tag: str, text: object = None, **attributes: object) -> Element:
    """A new element at the end of its parent; an attribute's ``_`` stands for a hyphen."""
    made = SubElement(parent, tag, {name.replace("_", "-"): str(value) for name, value in attributes.items()})
    if text is not None:
        made.text = str(text)
    return made


def element(tag: str, text: object = None, **attributes: object) -> Element:
    """An element by itself."""
    return add(Element("parent"), tag, text, **attributes)


def within(tag: str, *children: Element) -> Element:
    """An element that holds others."""
    made = Element(tag)
    made.extend(children)
    return made
