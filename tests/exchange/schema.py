"""The W3C schema of MusicXML 4.0, which travels in the package ``musicxml``."""

import tempfile
from functools import cache
from importlib.metadata import distribution
from pathlib import Path

from lxml import etree

# The schema leans on two others. What it takes from each of them:
_BESIDE = {
    "xml.xsd": (
        "http://www.w3.org/XML/1998/namespace",
        ["lang", "space"],
    ),
    "xlink.xsd": ("http://www.w3.org/1999/xlink", ["href", "type", "role", "title", "show", "actuate"]),
}


@cache
def _schema():
    travels = distribution("musicxml").locate_file("musicxml/generate_classes/musicxml_4_0.xsd")
    schema = Path(travels).read_text(encoding="utf-8").replace("http://www.musicxml.org/xsd/", "")
    with tempfile.TemporaryDirectory() as folder:
        for name, (space, attributes) in _BESIDE.items():
            rows = "".join(f'<xs:attribute name="{each}" type="xs:string"/>' for each in attributes)
            opening = f'<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="{space}">'
            (Path(folder) / name).write_text(f"{opening}{rows}</xs:schema>", encoding="utf-8")
        whole = Path(folder) / "whole.xsd"
        whole.write_text(schema, encoding="utf-8")
        return etree.XMLSchema(etree.parse(whole, etree.XMLParser(no_network=True)))


def mistakes(score):
    """What the schema finds wrong with the bytes of a score."""
    schema = _schema()
    schema.validate(etree.fromstring(score, etree.XMLParser(no_network=True, load_dtd=False)))
    return [f"{error.line}: {error.message}" for error in schema.error_log]
