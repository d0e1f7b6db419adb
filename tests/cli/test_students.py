"""Students as a tutor meets them: send, hear back, look who needs a look; nobody's lines are lost or moved."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from tests.cli.conftest import PLUGINS, run
from wristwork.cli.main import main
from wristwork.people.student import read_student

DAY = "2026-09-14"
MESSAGE = """\
My practice, week 1: 84 minutes in the last 14 days
One at a time: clean at 66, 20 min, done on 20 September 2026
Question: Does it <hurt> & why?
"""


@pytest.fixture
def folder(course):
    """A course with three students, two of whom are called Jo."""
    students = course / "students"
    students.mkdir()
    (students / "jo.md").write_text("name: Jo\nhand: left\n\nHis own stick bag.\r\n", encoding="utf-8", newline="")
    (students / "jo-2.md").write_text("name: jo\n", encoding="utf-8")
    (students / "zoe.md").write_text('name: Zoë <B> & "C"\nweek: 2\nlevel: 1', encoding="utf-8")
    return course


def typed(capsys, *arguments):
    """What a command says, in this process: its code, its output, its errors."""
    code = main([str(each) for each in arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_week_with_a_student(folder, capsys):
    code, out, err = typed(capsys, "send", "ZOE", "jo.md", "--on", DAY, "--folder", folder, "--words", "Slowly!")
    assert code == 0
    first, second = out.split("\n\n")
    assert first.startswith("Week 2 · ")
    assert second.startswith(
        "Week 1 · Let it bounce\nSlowly!\nOnce, behind “More” under any exercise: switch on “Left-handed”.\n"
    )
    assert "\nOne at a time: 60 to 72, 3 minutes\n" in second
    link = second.splitlines()[-1]
    assert link.startswith("https://quillbank.example/practice/#")
    assert "Jo" not in out
    told = [line for line in err.splitlines() if line.startswith("For ")]
    assert told[1].startswith("For Jo, week 1, noted in ")
    jo = folder / "students" / "jo.md"
    before = jo.read_bytes()
    assert before.startswith(
        b"name: Jo\nhand: left\n\nHis own stick bag.\r\n2026-09-14 sent week 1: one-at-a-time 60 to 72"
    )
    assert before.endswith(f"{DAY} link {link}\r\n".encode())

    code, out, _ = typed(capsys, "heard", "jo.md", MESSAGE, "--on", "2026-09-21", "--folder", folder)
    assert code == 0
    assert "asked Does it <hurt> & why?" in out
    assert jo.read_bytes().startswith(before)
    _, out, _ = typed(capsys, "heard", "jo.md", MESSAGE, "--on", "2026-09-22", "--folder", folder)
    assert out.startswith("All of it is noted already")

    _, out, _ = typed(capsys, "send", "jo.md", "--week", "1", "--on", "2026-09-22", "--folder", folder)
    assert "\nOne at a time: 66 to 72, 3 minutes\n" in out
    code, out, _ = typed(capsys, "people", "--on", "2026-09-22", "--folder", folder)
    assert code == 0
    assert "Jo (jo.md)  week 1, left hand leads\n  Sent week 1 on 22 September 2026\n" in out
    assert "  Heard on 21 September 2026, 84 minutes in 14 days: clean one-at-a-time 66\n" in out
    assert "  Hands: “hurt” on 21 September 2026: Does it <hurt> & why?\n" in out
    assert "jo (jo-2.md)  no week yet\n  Nothing sent yet\n" in out


def test_what_was_sent_in_a_month(folder, capsys):
    typed(capsys, "send", "zoe", "--on", DAY, "--folder", folder)
    _, out, _ = typed(capsys, "people", "zoe", "--month", "2026-09", "--folder", folder)
    assert f"  {DAY} sent week 2: " in out
    assert f"  {DAY} link https://" in out
    _, out, _ = typed(capsys, "people", "zoe", "--month", "2026-08", "--folder", folder)
    assert out.endswith("\n  Nothing in August 2026.\n")


def test_a_name_goes_along_only_when_it_is_asked_for(folder, capsys):
    _, plain, _ = typed(capsys, "send", "zoe", "--on", DAY, "--folder", folder)
    _, named, _ = typed(capsys, "send", "zoe", "--with-name", "--on", DAY, "--folder", folder)
    assert "Zo" not in plain
    assert '\nFor Zoë ‹B› & "C".\n' in named
    assert len(named.splitlines()[-1]) > len(plain.splitlines()[-1]) + 10


def test_an_exercise_is_taken_for_another(folder, capsys):
    arguments = ("send", "jo.md", "--without", "taking-turns", "--also", "one-at-a-time", "--also", "two-and-two")
    code, out, err = typed(capsys, *arguments, "--folder", folder)
    assert (code, out) == (1, "")
    assert err.startswith("wristwork: there is no exercise 'two-and-two'")
    _, out, _ = typed(capsys, *arguments[:4], "--folder", folder)
    assert "Taking turns" not in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("send", "Jo"), "2 students are called 'Jo': name the file: jo.md or jo-2.md"),
        (("send", "zoee"), "no student is called 'zoee': did you mean zoe?"),
        (("heard", "Kim", "x"), "no student is called 'Kim': wristwork add student Kim makes a file"),
        (
            ("send", "zoe", "--week", "9"),
            'there is no week 9 to send to Zoë <B> & "C": say --week; there are 1, 2, and wristwork add week ',
        ),
        (("send", "jo.md", "--without", "drag"), "week 1 has no exercise 'drag' to leave out: it has one-at-a-time, "),
        (("heard", "zoe", " "), "there is nothing in it to note: give the message or the link in quotes"),
    ],
)
def test_what_is_not_there_is_said_in_one_line_and_nothing_is_noted(folder, capsys, arguments, words):
    before = {path: path.read_bytes() for path in (folder / "students").iterdir()}
    code, out, err = typed(capsys, *arguments, "--folder", folder)
    assert (code, out) == (1, "")
    assert err.startswith(f"wristwork: {words}")
    assert err.count("\n") == 1
    assert {path: path.read_bytes() for path in (folder / "students").iterdir()} == before


def test_a_file_broken_by_hand_is_told_and_left_alone(folder, capsys):
    broken = folder / "students" / "jo-2.md"
    broken.write_text("name: Jo\nhand: both\n2026-09-31 sent week 1\n", encoding="utf-8")
    before = broken.read_bytes()
    for arguments in (("send", "jo-2.md"), ("heard", "jo-2.md", "Hello")):
        code, out, err = typed(capsys, *arguments, "--folder", folder)
        assert (code, out) == (1, "")
        assert "jo-2.md:2: hand: both: write the hand that leads: right or left; nothing was changed" in err
    code, out, _ = typed(capsys, "people", "--folder", folder)
    assert code == 1
    assert "jo-2.md:3: 2026-09-31 is no day" in out
    assert "\nZoë" in out
    assert broken.read_bytes() == before
    assert b"sent" not in (folder / "students" / "zoe.md").read_bytes()


def test_commands_at_once_lose_no_line(folder):
    command = [sys.executable, "-m", "wristwork.cli.main", "heard", "zoe", "--folder", str(folder)]
    started = [subprocess.Popen([*command, f"Word {number}"], env={"PYTHONPATH": str(PLUGINS)}) for number in range(4)]
    assert [each.wait(timeout=60) for each in started] == [0, 0, 0, 0]
    text = (folder / "students" / "zoe.md").read_text(encoding="utf-8")
    assert sorted(note.words for note in read_student("zoe.md", text).notes) == [f"Word {n}" for n in range(4)]
    assert text.startswith('name: Zoë <B> & "C"\nweek: 2\nlevel: 1\n')


def test_a_new_student_gets_a_file_and_another_one_of_nearly_the_name_another(course, capsys):
    _, out, _ = typed(capsys, "add", "student", "Ömer", "Ö.", "--week", "2", "--hand", "left", "--folder", course)
    assert out == f"Added {course}/students/omer-o.md, which no site ever holds.\n"
    typed(capsys, "add", "student", "Omer O.", "--folder", course)
    (second,) = (course / "students").glob("omer-o-2.md")
    assert second.read_text(encoding="utf-8").startswith("name: Omer O.\nhand: right\n\n# Words of your own")
    student = read_student("omer-o.md", (course / "students" / "omer-o.md").read_text(encoding="utf-8"))
    assert (student.name, student.week, student.hand, student.problems) == ("Ömer Ö.", 2, "left", ())


def test_a_student_who_is_there_is_not_added_again(folder, capsys):
    before = {path: path.read_bytes() for path in (folder / "students").iterdir()}
    code, out, err = typed(capsys, "add", "student", "zoë", "<b>", "&", '"c"', "--folder", folder)
    assert (code, out) == (1, "")
    assert err == (
        f'wristwork: Zoë <B> & "C" is there already, in {folder}/students/zoe.md: for somebody else say more of the '
        "name, as in wristwork add student 'zoë <b> & \"c\" B.'\n"
    )
    assert {path: path.read_bytes() for path in (folder / "students").iterdir()} == before


def test_all_that_a_file_says_can_be_given(folder, capsys):
    typed(capsys, "add", "student", "Kim", "--level", "4", "--surface", "quiet kit", "--folder", folder)
    text = (folder / "students" / "kim.md").read_text(encoding="utf-8")
    assert text.startswith("name: Kim\nlevel: 4\nhand: right\nsurface: quiet kit\n")


@pytest.mark.parametrize(
    ("option", "value", "told"),
    [
        ("--level", "11", "level: 11: write a grade from 1 to 10, as in level: 3"),
        (
            "--surface",
            "sea",
            "surface: sea: write one of these: practice pad, electronic kit, quiet kit and acoustic kit",
        ),
        ("--surface", "quiet kit\nhand: left", ""),
    ],
)
def test_what_no_file_can_say_is_refused(folder, capsys, option, value, told):
    code, _, err = typed(capsys, "add", "student", "Kim", option, value, "--folder", folder)
    assert code == 1
    assert told in err
    assert not (folder / "students" / "kim.md").exists()


@pytest.mark.parametrize(
    ("name", "near"), [("Al", "Big Al"), ("big", "Big Al"), ("fe", "Anna Ferro"), ("ferro an", "Anna Ferro")]
)
def test_part_of_a_name_is_enough_to_be_asked_back(course, capsys, name, near):
    for each in ("Big Al", "Anna Ferro"):
        typed(capsys, "add", "student", each, "--folder", course)
    _, _, err = typed(capsys, "people", name, "--folder", course)
    assert err == f"wristwork: no student is called '{name}': did you mean '{near}'?\n"


def test_a_name_with_an_apostrophe_is_asked_back_as_a_shell_takes_it(course, capsys):
    typed(capsys, "add", "student", "Nia O'Hollow", "--folder", course)
    _, _, err = typed(capsys, "people", "nia", "--folder", course)
    assert err == "wristwork: no student is called 'nia': did you mean \"Nia O'Hollow\"?\n"


def test_nobody_is_guessed_from_nothing_alike(folder, capsys):
    _, _, err = typed(capsys, "people", "Al", "--folder", folder)
    assert err == "wristwork: no student is called 'Al': wristwork add student Al makes a file\n"


def test_a_link_that_would_lead_nowhere_is_told_below_the_message(folder, capsys):
    (folder / "students" / "zoe.md").write_text("name: Zoë\n", encoding="utf-8")
    _, _, err = typed(capsys, "send", "zoe", "--week", "1", "--folder", folder)
    assert err.splitlines()[1:] == [
        "one-at-a-time, taking-turns, four-then-four were never published: run mkdocs build and put the site online, "
        "before you send the message",
        "quillbank.example is nobody's address: write yours as site_url: in mkdocs.yml, then send it again",
    ]
    assert run("check", folder, "--keep-addresses").code == 0
    settings = folder / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8").replace("https://quillbank.example/", "https://drums.example.org/")
    settings.write_text(text, encoding="utf-8")
    _, _, err = typed(capsys, "send", "zoe", "--week", "1", "--folder", folder)
    assert len(err.splitlines()) == 1
    page = folder / "docs" / "weeks" / "week-01.md"
    page.write_text(page.read_text(encoding="utf-8").replace("taking-turns", "turns"), encoding="utf-8")
    book = folder / "addresses.yml"
    book.write_text(book.read_text(encoding="utf-8").replace("taking-turns", "four"), encoding="utf-8")
    _, _, err = typed(capsys, "send", "zoe", "--week", "1", "--folder", folder)
    assert err.splitlines()[-1].startswith("turns was never published: run mkdocs build ")


@pytest.mark.parametrize("host", ["localhost:8000", "127.0.0.1", "127.0.1.1:8000", "[::1]:8000", "0.0.0.0"])
def test_a_link_that_only_this_computer_can_open_is_told(folder, capsys, host):
    settings = folder / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8").replace("https://quillbank.example/", f"http://{host}/")
    settings.write_text(text, encoding="utf-8")
    code, _, err = typed(capsys, "send", "jo.md", "--folder", folder)
    assert code == 0
    name = host.removesuffix(":8000").strip("[]")
    assert err.endswith(
        f"only this computer can open {name}: write the course's address as site_url: in mkdocs.yml, "
        "then send it again\n"
    )


LEFT = "Once, behind “More” under any exercise: switch on “Left-handed”.\n"


@pytest.mark.parametrize("came", [MESSAGE, "https://quillbank.example/x/taking-turns/", "Thanks!"])
def test_left_handed_students_are_told_what_to_switch_on_until_something_comes_from_them(folder, capsys, came):
    typed(capsys, "heard", "jo.md", "I begin on Monday.", "--on", "2026-09-01", "--folder", folder)
    for _ in range(2):
        _, out, _ = typed(capsys, "send", "jo.md", "--on", DAY, "--folder", folder)
        assert LEFT in out
    typed(capsys, "heard", "jo.md", came, "--on", "2026-09-16", "--folder", folder)
    _, out, _ = typed(capsys, "send", "jo.md", "--on", "2026-09-17", "--folder", folder)
    assert LEFT not in out


def test_one_who_cannot_be_sent_to_holds_up_nobody_else(folder, capsys):
    page = folder / "docs" / "weeks" / "week-02.md"
    page.write_text(
        page.read_text(encoding="utf-8").replace("week: 2\n", "week: 2\nopens: 2026-10-01\n"), encoding="utf-8"
    )
    students = folder / "students"
    (students / "broken.md").write_text("name: Bo\nhand: both\n", encoding="utf-8")
    (students / "late.md").write_text("name: Lale\nweek: 9\n", encoding="utf-8")
    (students / "ida.md").write_text("name: Ida\n", encoding="utf-8")
    before = {name: (students / f"{name}.md").read_bytes() for name in ("broken", "late", "zoe")}
    code, out, err = typed(capsys, "send", "zoe", "jo.md", "Bo", "Lale", "Ada", "Ida", "--on", DAY, "--folder", folder)
    assert code == 1
    assert [part.splitlines()[0] for part in out.split("\n\n")] == ["Week 1 · Let it bounce"] * 2
    told = [line for line in err.splitlines() if line.startswith("For ") and " noted in " not in line]
    assert [line.partition(": say --week")[0] for line in told] == [
        f"For Bo: {students}/broken.md:2: hand: both: write the hand that leads: right or left; nothing was changed",
        "For Ada: no student is called 'Ada': did you mean Ida?",
        "For zoe: week 2 opens on 1 October 2026, and its link would show nothing before: "
        "send something of another week",
        "For Lale: there is no week 9 to send to Lale",
    ]
    assert {name: (students / f"{name}.md").read_bytes() for name in before} == before
    assert all(f"{DAY} sent week 1: " in (students / f"{name}.md").read_text("utf-8") for name in ("jo", "ida"))


def test_what_is_wrong_for_all_is_told_once(folder, capsys):
    code, out, err = typed(capsys, "send", "zoe", "jo.md", "--also", "two-and-two", "--folder", folder)
    assert (code, out) == (1, "")
    assert err.startswith("wristwork: there is no exercise 'two-and-two'")
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (("jo.md", "taking-turns"), "wristwork send jo.md --also taking-turns"),
        (("one-at-a-time", 'Zoë <B> & "C"', "jo.md"), "wristwork send 'Zoë <B> & \"C\"' jo.md --also one-at-a-time"),
        (("taking-turns",), "say for whom, as in wristwork send Jo --also taking-turns"),
    ],
)
def test_an_exercise_typed_like_a_student_is_told_as_one(folder, capsys, names, words):
    before = {path: path.read_bytes() for path in (folder / "students").iterdir()}
    code, out, err = typed(capsys, "send", *names, "--folder", folder)
    assert (code, out) == (1, "")
    (id_,) = (name for name in names if "-" in name)
    assert err == f"wristwork: {id_} is an exercise: {words}\n"
    assert {path: path.read_bytes() for path in (folder / "students").iterdir()} == before


def test_what_to_look_at_stands_by_the_message(folder, capsys):
    zoe = folder / "students" / "zoe.md"
    zoe.write_text(
        f"{zoe.read_text(encoding='utf-8')}\n{DAY} said My wrist hurts\n{DAY} asked Which hand?\n", encoding="utf-8"
    )
    arguments = ("send", "jo.md", "zoe", "--week", "1", "--on", "2026-09-15", "--folder", folder)
    _, out, err = typed(capsys, *arguments)
    looks = [
        "  Hands: “hurts” on 14 September 2026: My wrist hurts",
        "  Grade: four-then-four at 72 is of grade 2, above the level 1; sent on 15 September 2026",
    ]
    lines = err.splitlines()
    assert lines[0].startswith("For Jo, ")
    assert lines[1].startswith("For Zoë")
    assert lines[2:5] == [*looks, "  Asked on 14 September 2026: Which hand?"]
    assert "hurts" not in out
    _, out, _ = typed(capsys, "people", "zoe", "--on", "2026-09-15", "--folder", folder)
    assert all(f"{line}\n" in out for line in looks)
    assert "Asked on" not in out


@pytest.mark.parametrize(
    ("notes", "lines"),
    [
        ((), ["Nothing sent yet"]),
        (
            ("2026-11-19 sent week 2", "2026-11-20 asked Which <hand>?"),
            ["Sent week 2 on 19 November 2026", "Asked on 20 November 2026: Which <hand>?"],
        ),
        (
            ("2026-11-20 asked Which hand?", "2026-11-20 sent week 2"),
            ["Sent week 2 on 20 November 2026", "Heard on 20 November 2026: Which hand?"],
        ),
        (
            ("2026-11-19 sent week 2", "2026-11-21 said (about flam at 64)"),
            ["Sent week 2 on 19 November 2026", "Heard on 21 November 2026: (about flam at 64)"],
        ),
        (
            ("2026-11-20 heard week 2: a clean at 66", "2026-11-20 said Bye", "2026-11-22 said Hello again"),
            ["Nothing sent yet", "Heard on 20 November 2026: clean a 66", "Heard on 22 November 2026: Hello again"],
        ),
        (
            ("2026-11-20 heard week 2: a clean at 66", "2026-11-20 said Bye"),
            ["Nothing sent yet", "Heard on 20 November 2026: clean a 66"],
        ),
        (
            ("2026-11-20 heard week 2: a last at 66; b last at 60",),
            ["Nothing sent yet", "Heard on 20 November 2026: a last at 66, b last at 60"],
        ),
        (
            ("2026-11-20 heard week 2, 84 minutes in 14 days: b last at 60",),
            ["Nothing sent yet", "Heard on 20 November 2026, 84 minutes in 14 days: b last at 60"],
        ),
        (
            ("2026-11-20 heard week 2: b last at 60; a clean at 66",),
            ["Nothing sent yet", "Heard on 20 November 2026: clean a 66, b last at 60"],
        ),
        ((f"2026-11-20 said {'x' * 300}",), ["Nothing sent yet", f"Heard on 20 November 2026: {'x' * 200}…"]),
    ],
)
def test_what_was_sent_heard_and_asked_last(tmp_path, capsys, notes, lines):
    (tmp_path / "students").mkdir()
    text = "\n".join(("name: Kim", "", *notes, ""))
    (tmp_path / "students" / "kim.md").write_text(text, encoding="utf-8")
    _, out, _ = typed(capsys, "people", "--on", "2026-11-26", "--folder", tmp_path)
    assert out.splitlines()[1:] == [f"  {line}" for line in lines]


def test_those_who_need_a_look_come_first_then_the_others_by_name(tmp_path, capsys):
    (tmp_path / "students").mkdir()
    texts = {
        "a": "name: Ömer\n\n2026-11-25 sent week 1\n",
        "b": "name: Nia\n\n2026-11-25 said All well\n",
        "c": "name: Zoë\n\n2026-11-25 said It hurts\n",
        "d": "name: Kim\n\n2026-11-25 asked Why?\n",
        "e": "name: Lou\nhand: both\n",
        "f": "name: Pia\n",
    }
    for name, text in texts.items():
        (tmp_path / "students" / f"{name}.md").write_text(text, encoding="utf-8")
    wanted = ["Kim", "Lou", "Zoë", "Nia", "Ömer", "Pia"]
    _, out, _ = typed(capsys, "people", "--on", "2026-11-26", "--folder", tmp_path)
    assert [part.split("  ")[0] for part in out.split("\n\n")] == wanted
    typed(capsys, "people", "--page", "--on", "2026-11-26", "--folder", tmp_path)
    page = (tmp_path / "students" / "people.html").read_text(encoding="utf-8")
    assert re.findall(r"<h2><bdi>(.*)</bdi>", page) == wanted
    assert "<p>Asked on 25 November 2026: Why?</p>" in page


def test_a_name_that_no_file_can_have_gets_another_file(course, capsys):
    for name in ("Con", "太郎", "..", "a/b"):
        assert typed(capsys, "add", "student", name, "--folder", course)[0] == 0
    assert {path.name for path in (course / "students").iterdir()} == {
        "student-con.md", "student.md", "student-2.md", "a-b.md",
    }  # fmt: skip
    assert typed(capsys, "heard", "太郎", "はい", "--folder", course)[0] == 0


def test_a_file_that_is_a_link_stays_one(folder, tmp_path, capsys):
    elsewhere = tmp_path / "kept.md"
    elsewhere.write_text("name: Kim\n", encoding="utf-8")
    (folder / "students" / "kim.md").symlink_to(elsewhere)
    assert typed(capsys, "heard", "Kim", "Hello", "--folder", folder)[0] == 0
    assert (folder / "students" / "kim.md").is_symlink()
    assert "said Hello" in elsewhere.read_text(encoding="utf-8")


def test_a_week_that_is_not_open_is_not_sent(folder, capsys):
    page = folder / "docs" / "weeks" / "week-02.md"
    page.write_text(
        page.read_text(encoding="utf-8").replace("week: 2\n", "week: 2\nopens: 2026-10-01\n"), encoding="utf-8"
    )
    code, out, err = typed(capsys, "send", "zoe", "--on", "2026-09-30", "--folder", folder)
    assert (code, out) == (1, "")
    assert "week 2 opens on 1 October 2026, and its link would show nothing before" in err
    code, out, err = typed(capsys, "send", "jo.md", "--also", "small-groove", "--on", "2026-09-30", "--folder", folder)
    assert (code, out) == (1, "")
    assert err.startswith("wristwork: week 2 opens on 1 October 2026, and its link would show nothing before")
    assert typed(capsys, "send", "zoe", "--on", "2026-10-01", "--folder", folder)[0] == 0


def test_version_control_keeps_students_out_unless_the_tutor_says_so(course, tmp_path, capsys):
    assert "\n/students/\n" in (course / ".gitignore").read_text(encoding="utf-8")
    typed(capsys, "new", tmp_path / "other", "--keep-students")
    assert "students" not in (tmp_path / "other" / ".gitignore").read_text(encoding="utf-8")
    _, out, _ = typed(capsys, "add", "student", "Jo", "--folder", tmp_path / "other")
    assert out.endswith("add the line /students/ to .gitignore.\n")


def test_the_message_comes_in_by_the_keyboard(folder):
    done = subprocess.run(
        [sys.executable, "-m", "wristwork.cli.main", "heard", "zoe", "--folder", str(folder)],
        input=MESSAGE.encode(),
        env={"PYTHONPATH": str(PLUGINS), "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"heard week 1, 84 minutes in 14 days: one-at-a-time clean at 66" in done.stdout


@pytest.mark.parametrize(
    ("content", "code", "words"),
    [
        ("Grüße".encode("utf-16"), 0, "said Grüße"),
        ("\ufeffGrüße".encode(), 0, "said Grüße"),
        ("Grüße".encode("latin-1"), 1, "wristwork: the message is not written in UTF-8: save it in that encoding"),
    ],
)
def test_a_message_out_of_a_file_is_read_as_it_was_written(folder, capsys, monkeypatch, content, code, words):
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(content)))
    done, out, err = typed(capsys, "heard", "zoe", "--folder", folder)
    assert done == code
    assert words in out + err


def test_the_page_is_whole_and_asks_for_nothing(folder, capsys):
    typed(capsys, "send", "zoe", "--on", DAY, "--folder", folder)
    code, out, _ = typed(capsys, "people", "--page", "--folder", folder)
    assert code == 0
    assert out.startswith("Written ")
    page = (folder / "students" / "people.html").read_text(encoding="utf-8")
    tags = Tags()
    tags.feed(page)
    assert "<bdi>Zoë &lt;B&gt; &amp; &#34;C&#34;</bdi>" in page
    assert not tags.names & {"script", "link", "img", "iframe", "b", "form"}
    assert "url(" not in page
    assert "@import" not in page


class Tags(HTMLParser):
    """The names of all elements of a page."""

    def __init__(self):
        super().__init__()
        self.names = set()

    def handle_starttag(self, tag, attrs):
        self.names.add(tag)


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        ("docs/jo.md", "name: Jo\n\n2026-09-14 sent week 3\n", "docs/jo.md: reads as notes on a student, and would be"),
        ("docs/extra.md", '# A\n\n--8<-- "students/zoe.md"\n', "docs/extra.md:3: takes in a file of students/"),
    ],
)
def test_what_would_publish_notes_stops_a_build(folder, path, text, words):
    (folder / path).write_text(text, encoding="utf-8")
    done = run("check", folder)
    assert done.code == 1
    assert f"{folder}/{words}" in done.out


def test_a_folder_of_students_among_the_pages_stops_a_build(folder):
    (folder / "docs" / "those").symlink_to(folder / "students", target_is_directory=True)
    done = run("check", folder)
    assert done.code == 1
    assert "docs/those/jo.md: leads to students/, and would be published" in done.out


def test_a_week_in_which_something_cant_be_read_is_not_sent_with_less(folder, capsys):
    page = next((folder / "docs").rglob("week-01.md"))
    page.write_text(page.read_text(encoding="utf-8").replace("hands: ", "hands: X ", 1), encoding="utf-8")
    typed(capsys, "add", "student", "Emil Groß", "--folder", folder)
    assert (folder / "students" / "emil-gross.md").exists()
    code, out, err = typed(capsys, "send", "Emil Groß", "--week", "1", "--folder", folder)
    assert (code, out) == (1, "")
    assert "week 1 can't be read whole, and something of it would be missing: see wristwork check" in err
    assert "sent week" not in (folder / "students" / "emil-gross.md").read_text(encoding="utf-8")
