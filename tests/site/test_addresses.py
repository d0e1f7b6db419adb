import pytest

from wristwork.site.addresses import absolute, breakable, relative


@pytest.mark.parametrize(
    ("target", "page", "address"),
    [
        ("x/a/", "week-03/", "../x/a/"),
        ("week-03/#a", "x/a/", "../../week-03/#a"),
        ("week-03/#a", "week-03/", "./#a"),
        ("week-03.html#a", "key.html", "week-03.html#a"),
        ("", "x/a/", "../../"),
        ("x/a/", "", "x/a/"),
        ("x/a/?tempo=72", "week-03/", "../x/a/?tempo=72"),
        ("assets/style.css", "x/a/", "../../assets/style.css"),
    ],
)
def test_relative(target: str, page: str, address: str) -> None:
    assert relative(target, page) == address


def test_absolute_needs_to_know_where_the_site_is() -> None:
    assert absolute("x/a/", "https://larkspur.example/loft") == "https://larkspur.example/loft/x/a/"
    assert absolute("x/a/", "https://larkspur.example/loft/") == "https://larkspur.example/loft/x/a/"
    assert absolute("x/a/", None) is None
    assert absolute("x/a/", "") is None


def test_a_long_address_goes_on_after_a_slash() -> None:
    assert breakable("https://drums.example/a&b/x/c/") == "https://drums.example/<wbr>a&amp;b/<wbr>x/<wbr>c/"
