"""The calendar file, read back with a reader of its own."""

from datetime import date

from wristwork.course.calendar import CalendarWeek, course_calendar, week_dates

WEEKS = [
    CalendarWeek(
        2, "Down and up; softly, now", "Stop the stick, with “both” hands: slowly.", "https://drums.example/w2/"
    ),
    CalendarWeek(1, "Full and tap", None, None),
]


def unfolded(data):
    return data.decode().replace("\r\n ", "").split("\r\n")


def test_each_week_is_an_all_day_event_with_a_lasting_id():
    lines = unfolded(course_calendar("Two Heights", WEEKS, date(2027, 1, 11), "drums.example"))
    assert lines[0] == "BEGIN:VCALENDAR"
    assert [line for line in lines if line.startswith(("UID", "DTSTART", "DTEND"))] == [
        "DTSTART;VALUE=DATE:20270111",
        "DTEND;VALUE=DATE:20270118",
        "UID:week-1@drums.example",
        "DTSTART;VALUE=DATE:20270118",
        "DTEND;VALUE=DATE:20270125",
        "UID:week-2@drums.example",
    ]
    assert r"SUMMARY:Two Heights: week 2\, Down and up\; softly\, now" in lines


def test_the_file_is_the_same_from_build_to_build_and_folds_its_lines():
    made = [course_calendar("Two Heights", WEEKS, date(2027, 1, 11), "drums.example") for _ in range(2)]
    assert made[0] == made[1]
    assert all(len(line) <= 75 for line in made[0].split(b"\r\n"))


def test_a_week_is_seven_days():
    assert week_dates(date(2027, 1, 11), 3) == (date(2027, 1, 25), date(2027, 1, 31))
