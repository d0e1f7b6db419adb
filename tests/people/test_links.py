"""Links: what the site reads is what is written, and no letters do harm."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wristwork.people.links import Item, Row, list_code, report_of
from wristwork.people.packing import Reader, number, pack, text, unpack

NASTY = st.text(alphabet="ab<>&\"'é手🥁 \n;:#%", max_size=40)


@given(st.integers(0, 2**27), NASTY)
def test_numbers_and_texts_come_back(value, words):
    reader = Reader(number(value) + text(words))
    assert (reader.number(), reader.text(), reader.is_over) == (value, words, True)


@given(st.lists(st.binary(max_size=40), max_size=8))
def test_pieces_come_back_and_a_cut_costs_only_what_it_takes(pieces):
    letters = pack(1, pieces)
    whole = unpack(letters)
    assert (whole.version, whole.announced, list(whole.pieces)) == (1, len(pieces), pieces)
    for at in range(len(letters)):
        read = unpack(letters[:at])
        assert list(read.pieces) == pieces[: len(read.pieces)]


@given(st.text(max_size=60) | st.text(alphabet="AB_-09", max_size=60))
def test_any_letters_can_be_asked_for_a_report(letters):
    assert report_of(letters) is None or report_of(letters).week >= 0


def test_a_list_is_no_report():
    assert report_of(list_code([Item("slow-singles", 60, 72, 5), Item("flam-tap", 52, 60, 4, "Küss die Hand")])) is None


def test_the_letters_of_a_list_stay_what_students_have_in_old_messages():
    assert list_code([Item("slow-singles", 60, 72, 5, "Easy")]) == "AQEVXO4Mc2xvdy1zaW5nbGVzPEgKBEVhc3k"


def rows(*parts):
    return b"".join(parts)


def test_a_report_is_read_with_what_was_lost_told():
    head = number(3) + number(2) + number(20) + number(64) + text("Why <that>?")
    good = text("slow-singles") + number(1) + number(72) + number(40) + number(2) + number(72) + number(66)
    other = text("flam-tap") + number(0) + number(0) + number(10) + number(0) + text("2026-09-20")
    no_id = text("<b>") + number(0) + number(0) + number(0) + number(0)
    report = report_of(pack(1, [head, good, other, no_id]))
    assert report is not None
    assert (report.week, report.minutes, report.days, report.question) == (3, 84, 2, "Why <that>?")
    assert report.rows == (
        Row("slow-singles", 72, 66, 40, True, None),
        Row("flam-tap", None, None, 10, False, date(2026, 9, 20)),
    )
    assert report.lost == 1


@pytest.mark.parametrize("letters", ["", "A", "AQ", "____", "A" * 9000])
def test_what_is_no_link_holds_nothing(letters):
    assert report_of(letters) is None
