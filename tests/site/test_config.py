import datetime

import pytest

from wristwork.pattern.model import DiagramRow
from wristwork.site.mkdocs.config import WristworkConfig


def read(**settings: object) -> tuple[WristworkConfig, list[str]]:
    config = WristworkConfig()
    config.load_dict(settings)
    errors, warnings = config.validate()
    return config, [f"{name}: {error}" for name, error in [*errors, *warnings]]


def test_nothing_need_be_set() -> None:
    config, errors = read()
    assert errors == []
    assert (config.show, config.checks, config.days, config.starts) == (None, "warn", 5, None)


@pytest.mark.parametrize("value", ["heights, count", ["heights", "count"]])
def test_rows_are_read_in_the_order_of_the_diagram(value: object) -> None:
    config, errors = read(show=value)
    assert errors == []
    assert config.show == (DiagramRow.COUNT, DiagramRow.HEIGHTS)


@pytest.mark.parametrize(("value", "checks"), [(False, "off"), (True, "warn"), ("off", "off"), ("warn", "warn")])
def test_a_bare_off_is_off(value: object, checks: str) -> None:
    assert read(checks=value)[0].checks == checks


@pytest.mark.parametrize("value", ["2027-01-11", datetime.date(2027, 1, 11)])
def test_a_start_is_a_day(value: object) -> None:
    assert read(starts=value)[0].starts == datetime.date(2027, 1, 11)


@pytest.mark.parametrize(
    ("settings", "error"),
    [
        ({"show": "cuont"}, "show: Unknown row 'cuont'. The rows are count, notation, sticking, heights, names"),
        ({"show": []}, "show: Expected rows out of count, notation, sticking, heights, names"),
        ({"checks": "loud"}, "checks: Expected warn or off, found 'loud'"),
        ({"days": 8}, "days: Expected 1 to 7 days a week, found 8"),
        ({"days": 0}, "days: Expected 1 to 7 days a week, found 0"),
        ({"starts": "2027-02-30"}, "starts: Expected a date like 2027-01-11, found '2027-02-30'"),
        ({"look": "marble"}, "look: Expected maple, felt, lacquer, found 'marble'"),
        ({"colours": "teal"}, "colours: Expected a colour in quotation marks, like \"#7a2e1d\", found 'teal'"),
        ({"colours": 112233}, "colours: Expected a colour in quotation marks, like \"#7a2e1d\", found '112233'"),
        ({"colours": ["#111", "#222", "#333"]}, "colours: Expected one colour or two, found 3"),
        (
            {"colours": None},
            "colours: Expected a colour, found nothing: a # begins a comment, so put quotation marks round it",
        ),
        ({"strats": "x"}, "strats: Unrecognised configuration name: strats"),
    ],
)
def test_a_wrong_setting_is_told(settings: dict[str, object], error: str) -> None:
    assert read(**settings)[1] == [error]
