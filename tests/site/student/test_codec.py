"""What an address holds: any list comes back as it was, and no address does harm."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from datetime import date

import pytest
from playwright.sync_api import Browser, Page

from tests.site.student.conftest import Published
from wristwork.people.links import MOST_MINUTES, Item, Report, Row, list_code, report_of
from wristwork.people.messages import read_message

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("student")]

LISTS = 400
ALPHABETS = (
    "abcdefghijklmnopqrstuvwxyz ,.!?",
    "äöüßéèñçøåłžđ “”‘’–—…",
    "рукаправолевосначала слева",
    "右手左手速く遅く、。",
    "שלוםעולם יד ימין",
    "اليداليمنى أولا",
    "🥁👏🏽👩‍🏫🇮🇸🙂‍↕️",
    "<>&\"'`{}[]()\\/=;:#%?+-_*~|\n\t\u0000\u200b\u202e\ufeff",
)
WORST_ITEM = {"id": "a" * 48, "from": 320, "to": 320, "unit": "passes", "amount": 99}


@pytest.fixture(scope="module")
def codec(browser: Browser, published: Published) -> Iterator[Page]:
    """A page with the two codecs."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(f"{published.url}schema/exercise.json")
    page.evaluate(
        """async (base) => {
            Object.assign(window, await import(base + "list-codec.js"), await import(base + "report-codec.js"));
            Object.assign(window, await import(base + "log-store.js"), { base });
        }""",
        published.scripts,
    )
    yield page
    context.close()


def words(rng: random.Random, most: int) -> str:
    text = ""
    while rng.random() < 0.9:
        more = text + rng.choice(rng.choice(ALPHABETS))
        if len(more.encode()) > most:
            break
        text = more
    return text


def any_list(rng: random.Random) -> list[dict[str, object]]:
    count = rng.randint(1, 12)
    items = []
    for _ in range(count):
        unit, most = rng.choice((("minutes", 25), ("passes", 99)))
        id_ = "-".join(
            "".join(rng.choices("abcdefghijklmnopqrstuvwxyz0123456789", k=rng.randint(3, 8))) for _ in "12345"
        )
        items.append(
            {
                "id": id_[: rng.randint(3, 48)].strip("-") + "x",
                "from": rng.randint(20, 320),
                "to": rng.randint(20, 320),
                "unit": unit,
                "amount": rng.randint(1, most),
                "words": words(rng, 600 // count),
            }
        )
    return items


def test_every_list_survives_the_round_trip(codec: Page) -> None:
    rng = random.Random(5)
    lists = [any_list(rng) for _ in range(LISTS)]
    back, lengths = codec.evaluate(
        """(lists) => {
            const texts = lists.map(encodeList);
            return [texts.map((text) => decodeList(text)), texts.map((text) => text.length)];
        }""",
        lists,
    )
    assert [read["items"] for read in back] == lists
    assert all(read["lost"] == 0 and read["isList"] and not read["isNewer"] for read in back)
    assert max(lengths) <= 1779


def test_a_warm_up_of_ones_own_survives_and_a_wrong_one_costs_no_exercise(codec: Page) -> None:
    rng = random.Random(6)
    for minutes in range(2, 16):
        items, warm_up = any_list(rng), {"minutes": minutes, "words": words(rng, 200)}
        read = codec.evaluate("([items, warmUp]) => decodeList(encodeList(items, warmUp))", [items, warm_up])
        assert (read["items"], read["warmUp"], read["lost"]) == (items, warm_up, 0)
    for minutes in (0, 1, 16, 100_000):
        read = codec.evaluate(
            "([items, minutes]) => decodeList(encodeList(items, { minutes, words: '' }))", [items, minutes]
        )
        assert (read["items"], read["warmUp"], read["lost"]) == (items, None, 0)


@pytest.mark.parametrize("sign", ["x", "ß", "手", "🥁"])
def test_the_longest_list_leaves_room_for_the_address_of_the_site(codec: Page, sign: str) -> None:
    each = 46 // len(sign.encode())
    items = [{**WORST_ITEM, "words": sign * each} for _ in range(12)]
    warm_up = {"minutes": 15, "words": sign * (48 // len(sign.encode()))}
    text = codec.evaluate("([items, warmUp]) => encodeList(items, warmUp)", [items, warm_up])
    assert len(text) <= 1783
    assert set(text) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_")


def test_a_link_that_was_cut_gives_its_whole_exercises(codec: Page) -> None:
    items = any_list(random.Random(8))
    cuts = codec.evaluate(
        """(items) => {
            const text = encodeList(items);
            return Array.from(text, (_, at) => decodeList(text.slice(0, at)));
        }""",
        items,
    )
    for read in cuts:
        assert read["items"] == items[: len(read["items"])]
        if read["isList"]:
            assert read["lost"] in (0, len(items) - len(read["items"]))
    assert any(0 < len(read["items"]) < len(items) for read in cuts)


def test_a_damaged_letter_costs_at_most_what_it_stands_in_and_is_told(codec: Page) -> None:
    items = [{**item, "id": f"exercise-{at}"} for at, item in enumerate(any_list(random.Random(3)))]
    damaged = codec.evaluate(
        """(items) => {
            const text = encodeList(items);
            return Array.from(text, (letter, at) =>
                decodeList(text.slice(0, at) + (letter === "A" ? "B" : "A") + text.slice(at + 1)));
        }""",
        items,
    )
    for read in damaged:
        assert all(item in items for item in read["items"])
        if read["items"] != items:
            assert read["lost"] > 0 or not read["isList"] or len(read["items"]) < len(items)


HOSTILE = [
    "",
    "#",
    "<script>alert(1)</script>",
    "%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E",
    "%E0%A4%A",
    "A" * 200_000,
    "_" * 5000,
    "AQ",
    "AQE",
    "____",
    "constructor",
    "__proto__",
    "\u0000\uffff",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_no_address_throws(codec: Page, text: str) -> None:
    read = codec.evaluate("(text) => [decodeList(text), decodeReport(text)]", text)
    assert read[0]["items"] == []
    assert read[1]["rows"] == []


def test_ids_that_are_none_are_not_let_in(codec: Page) -> None:
    bad = ["__proto__", "a", "Upper-case", "two--hyphens", "x" * 49, "<b>", "../up"]
    read = codec.evaluate(
        "(ids) => decodeList(encodeList(ids.map((id) => ({id, ...WORST}))))".replace(
            "...WORST", "from: 60, to: 80, unit: 'minutes', amount: 5, words: ''"
        ),
        bad,
    )
    assert read["items"] == []
    assert read["lost"] == len(bad)


def test_a_newer_link_is_read_as_far_as_it_can_be_and_told(codec: Page) -> None:
    items = [{"id": "slow-singles", "from": 60, "to": 72, "unit": "minutes", "amount": 5, "words": "Slow"}]
    text = codec.evaluate("(items) => encodeList(items)", items)
    newer = codec.evaluate(
        """(text) => {
            const bytes = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
            return decodeList(btoa("\\x02" + bytes.slice(1)).replaceAll("+", "-").replaceAll("/", "_"));
        }""",
        text,
    )
    assert newer["isNewer"]
    assert newer["items"] == items


def test_every_report_survives_the_round_trip(codec: Page) -> None:
    rng = random.Random(11)
    reports = [
        {
            "week": rng.randint(1, 999),
            "minutes": [rng.randint(0, 300) for _ in range(14)],
            "question": words(rng, 500),
            "rows": [
                {
                    "id": f"exercise-{at}",
                    "isDone": rng.random() < 0.5,
                    "doneOn": rng.choice(("", "2027-01-20")),
                    "best": rng.choice((None, rng.randint(20, 320))),
                    "minutes": rng.randint(0, 5000),
                    "tempos": [rng.randint(20, 320) for _ in range(rng.randint(0, 20))],
                }
                for at in range(rng.randint(0, 12))
            ],
        }
        for _ in range(100)
    ]
    back = codec.evaluate("(reports) => reports.map((report) => decodeReport(encodeReport(report)))", reports)
    for read, sent in zip(back, reports, strict=True):
        assert {key: read[key] for key in sent} == sent
        assert read["isReport"]
        assert read["lost"] == 0


@pytest.mark.parametrize(
    "value",
    [
        None,
        [],
        "text",
        {"played": {"2027-01-11": {"__proto__": 5, "slow-singles": -1, "a": 3}}},
        {"played": {"2027-02-30": {"slow-singles": 5}}, "clean": {"constructor": {"2027-01-11": "72"}}},
        {"done": {"slow-singles": "<b>"}, "week": "3", "question": {}},
    ],
)
def test_a_log_out_of_anything_is_sound(codec: Page, value: object) -> None:
    text = codec.evaluate("(text) => logText(sound(JSON.parse(text)))", json.dumps(value))
    log = json.loads(text)
    assert all(day == {} for day in log["played"].values())
    assert all(days == {} for days in log["clean"].values())
    assert (log["done"], log["week"], log["question"]) == ({}, None, "")


def test_the_commands_write_and_read_what_the_site_reads_and_writes(codec: Page) -> None:
    rng = random.Random(12)
    for items in (any_list(rng) for _ in range(20)):
        ours = [Item(each["id"], each["from"], each["to"], each["amount"], each["words"]) for each in items]
        read = codec.evaluate("(text) => decodeList(text)", list_code(ours))
        assert read["items"] == [{**each, "unit": "minutes"} for each in items if each["amount"] <= MOST_MINUTES]
    row = {"id": "slow-singles", "isDone": True, "doneOn": "2027-01-20", "best": 72, "minutes": 40, "tempos": [72, 66]}
    sent = {"week": 3, "minutes": [20, 64], "question": "Küss <die> Hand?\n🥁", "rows": [row]}
    link = codec.evaluate("(report) => encodeReport(report)", sent)
    heard = (Row("slow-singles", 72, 66, 40, True, date(2027, 1, 20)),)
    assert report_of(link) == Report(3, 84, 2, heard, sent["question"])


def test_the_commands_read_the_message_of_the_site(codec: Page) -> None:
    listened = {"tempo": 66, "spread": 9, "accents": 6, "louder": -5}
    row = {"id": "slow-singles", "isDone": True, "doneOn": "2027-01-20", "best": 72, "minutes": 40, "heard": listened}
    sent = {"week": 3, "minutes": [20, 64], "question": "Why?\nAnd how?", "rows": [row]}
    title = "Slow *singles* <R|L>"
    message = codec.evaluate(
        """async ([report, title, base]) => {
            const { reportMessage } = await import(base + "report.js");
            const course = { moved: new Map(), exercises: new Map([["slow-singles", { title }]]) };
            return reportMessage(course, report, { name: "Zoë", withHeard: true });
        }""",
        [sent, title, codec.evaluate("() => base")],
    )
    told = read_message(message, {"slow-singles": title})
    assert told.report is not None
    heard = "heard at 66, within 9 ms, accents 6 dB over taps, left hand 5 dB louder"
    assert told.report.rows == (Row("slow-singles", 72, None, 40, True, date(2027, 1, 20), heard),)
    assert (told.name, told.question, told.words, told.unknown) == ("Zoë", "Why? And how?", "", ())
