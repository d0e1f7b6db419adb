"""All that is told of students is said, and what they wrote is read in the course's language and in English."""

from __future__ import annotations

from contextlib import contextmanager
from datetime import date
from gettext import NullTranslations

import pytest
from filelock import FileLock

from tests.people.test_looks import DAY, SENT
from tests.said import bracketed, unsaid
from wristwork.languages.catalogues import Language, language
from wristwork.languages.say import say, speaking
from wristwork.people import folder, looks
from wristwork.people.folder import NoStudent, StudentsFolder, Unsaved
from wristwork.people.links import Report, Row
from wristwork.people.months import Month, read_month
from wristwork.people.notes import Note, heard
from wristwork.people.student import read_student

NOTED = (
    ("2026-11-25 asked My wrist hurts",),
    ("2026-11-24 heard week 3: slow-singles clean at 66, heard at 66, within 9 ms, left hand 4 dB louder",),
    ("2026-11-24 heard week 3: slow-singles clean at 66, heard at 66, within 9 ms, right hand 4 dB louder",),
    ("2026-11-10 heard week 3: slow-singles clean at 72", "2026-11-24 heard week 3: slow-singles clean at 66"),
    ("2026-11-24 heard week 3: slow-singles clean at 72, last at 66",),
    ("2026-11-10 heard week 2, 200 minutes in 14 days", "2026-11-24 heard week 3, 270 minutes in 14 days"),
    ("2026-11-05 sent week 2",),
    ("2026-11-05 sent slow-singles",),
    ("2026-11-01 sent week 2", "2026-11-03 heard week 2"),
    ("2026-11-01 sent slow-singles", "2026-11-03 heard week 2"),
    (SENT,),
)
WRONG = ("hand: lefty", "week: three", "level: 11", "surface: sea", "name: Joe", "2026-02-30 sent week 3",
         "2026-09-14 snet week 3", "hnad: left")  # fmt: skip


def seen(*lines, head="name: Jo\nlevel: 4\n"):
    student = read_student("students/jo.md", head + "\n" + "\n".join(lines))
    return looks.looks(student, DAY, lambda name, tempo: 5)


@pytest.mark.parametrize("lines", NOTED)
def test_every_look(lines):
    with bracketed():
        found = seen(*lines)
    assert found
    assert [unsaid(text) for look in found for text in (look.about, look.words)] == [""] * 2 * len(found)


@pytest.mark.parametrize("line", WRONG)
def test_every_slip_in_a_file(line):
    with bracketed():
        (problem,) = read_student("students/jo.md", f"name: Jo\n{line}\n").problems
    assert unsaid(problem.found) in ("", line, "'hnad:'")
    assert unsaid(problem.remedy) == ""


def test_nobody_and_too_many_of_a_name(tmp_path):
    there = StudentsFolder(tmp_path)

    def told(name):
        with bracketed(), pytest.raises(NoStudent) as error:
            there.find(name)
        return [unsaid(str(error.value)), unsaid(error.value.remedy)]

    assert told("Jo") == ["", ""]
    there.add("Jo", [])
    there.add("Jo", [])
    for name in ("Jo", "J", "Wilhelmine"):
        assert told(name) == ["", ""]


def test_files_that_cannot_be_read_or_written(tmp_path, monkeypatch):
    there = StudentsFolder(tmp_path)
    path = there.add("Jo", [])
    path.write_bytes(b"name: J\xf6\n")
    with bracketed():
        (problem,) = there.students()[0].problems
        assert [unsaid(problem.found), unsaid(problem.remedy)] == ["", ""]
        monkeypatch.setattr(folder, "_LARGEST", 3)
        (problem,) = there.students()[0].problems
        assert [unsaid(problem.found), unsaid(problem.remedy)] == ["", ""]
        with pytest.raises(Unsaved) as error:
            there.append(there.students()[0], [Note(DAY, "", "Words")])
        assert unsaid(str(error.value)) == ""


def test_a_folder_in_which_somebody_else_writes_or_a_link_stands(tmp_path, monkeypatch):
    monkeypatch.setattr(folder, "_LONGEST_WAIT", 0.01)
    there, lock = StudentsFolder(tmp_path), tmp_path / ".wristwork" / "students.lock"
    lock.parent.mkdir()

    @contextmanager
    def refused():
        with bracketed(), pytest.raises(Unsaved) as error:
            yield
        assert unsaid(str(error.value)) == ""

    with FileLock(lock), refused():
        there.add("Jo", [])
    lock.unlink(missing_ok=True)
    lock.symlink_to(tmp_path / "elsewhere")
    with refused():
        there.add("Jo", [])


class _OtherSigns(NullTranslations):
    def gettext(self, message):
        return "*schmerz*, taub*" if message == looks._SIGNS else message


def test_signs_are_found_in_the_words_of_the_course_and_in_english():
    said = ("Handgelenkschmerzen", "ganz taub", "it hurts", "Urtaub")
    with speaking(Language("de", _OtherSigns(), {})):
        found = [seen(f"2026-11-25 said {words}") for words in said]
    assert [look[0].words.partition("”")[0] if look else "" for look in found] == [
        "“Handgelenkschmerzen", "“taub", "“hurts", ""]  # fmt: skip


def test_what_a_device_heard_is_read_back_in_the_words_of_its_message():
    with speaking(language("de")):
        words = say("heard at {tempo}, {facts}", tempo=66, facts=say("left hand {count} dB louder", count=5))
        row = Row("slow-singles", 66, None, 20, True, date(2026, 9, 20), words)
        note = heard(
            DAY, Report(3, 84, 14, (row, Row("flam-tap", 60, None, 0, False, None, "heard at 60, within 9 ms")))
        )
        assert [each.listened for each in note.rows] == [words, "heard at 60, within 9 ms"]
        assert "5 dB" in seen(str(note))[0].words


def test_months_have_the_names_of_the_language_and_english_ones():
    with speaking(language("de")):
        assert str(Month(2026, 3)) == "März 2026"
        for typed, number in (
            ("März", 3),
            ("mär", 3),
            ("march", 3),
            ("okt", 10),
            ("October", 10),
            ("Mai", 5),
            ("may", 5),
        ):
            assert read_month(f"{typed} 2026", DAY) == Month(2026, number), typed
        assert read_month("ma", DAY) is None
    assert str(Month(2026, 3)) == "March 2026"
