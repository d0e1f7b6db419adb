"""``wristwork send``: a week's list, message and link for students, noted in their files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from ipaddress import ip_address
from pathlib import Path
from urllib.parse import urlsplit

from wristwork.cli.attention import grades, look_line, question_words, unanswered
from wristwork.cli.course_files import CourseFiles, read_files, unread
from wristwork.cli.paint import Paint
from wristwork.cli.students import append, sound
from wristwork.cli.trouble import Trouble
from wristwork.course.course import Exercise
from wristwork.course.message import safe_words
from wristwork.course.opening import is_closed
from wristwork.course.weeks import Week
from wristwork.days import day_words
from wristwork.languages.say import marked, say, say_count
from wristwork.people import notes
from wristwork.people.folder import StudentsFolder, as_typed
from wristwork.people.links import LONGEST_LINK, MOST_ITEMS, Item, list_code
from wristwork.people.looks import looks
from wristwork.people.sending import has_answered, item_of, message, next_week, week_items
from wristwork.people.student import Student
from wristwork.site.addresses import absolute
from wristwork.site.frontend.head import LIST_PAGE
from wristwork.wording import nearest

# Their device keeps it from then on; no link could say it. It is said until something came from the student.
_LEFT = marked("Once, behind “More” under any exercise: switch on “Left-handed”.")
# Hosts that nobody can have: the starter's address is one.
_NOBODYS = ".example"


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be sent, as it was typed."""

    names: tuple[str, ...]
    week: int | None = None
    extra: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    words: str = ""
    with_name: bool = False


@dataclass(frozen=True, slots=True)
class Parcel:
    """What one student is sent."""

    student: Student
    week: Week
    items: tuple[Item, ...]
    link: str
    text: str


def send(asked: Asked, day: date, folder: Path, paint: Paint, aside: Paint) -> int:
    """Write each message to ``paint``, what was noted to ``aside``; 1 where somebody can't be sent to."""
    people = StudentsFolder(folder)
    refused: dict[str, Trouble] = {}
    students: dict[str, Student] = {}
    for name in asked.names:
        with _keeping(refused, name):
            students[name] = sound(people, name)
    files = _files(folder, asked, students, refused)
    if files.wrong and students:
        aside.line(unread(len(files.wrong)))
    parcels: list[Parcel] = []
    for name, student in students.items():
        with _keeping(refused, name):
            parcel = _parcel(student, asked, day, files)
            _note(parcel, people, day, files, aside)
            if parcels:
                paint.line()
            for line in parcel.text.splitlines():
                paint.line(line)
            paint.stream.flush()
            parcels.append(parcel)
    if not parcels and len({str(each) for each in refused.values()}) == 1:
        raise next(iter(refused.values()))  # one thing is wrong, for one student or for all
    sent = [item.id for parcel in parcels for item in parcel.items]
    for warning in _warnings(sent, files) if sent else ():
        aside.line(aside.styled("wrong", warning))
    for name, trouble in refused.items():
        aside.line(aside.styled("wrong", say("For {name}: {reason}", name=name, reason=trouble)))
    return 1 if refused else 0


@contextmanager
def _keeping(refused: dict[str, Trouble], name: str) -> Iterator[None]:
    """Keep what stops the message of one student, so that the others get theirs."""
    try:
        yield
    except Trouble as trouble:
        refused[name] = trouble


def _files(folder: Path, asked: Asked, students: Mapping[str, Student], refused: Mapping[str, Trouble]) -> CourseFiles:
    """The course. Stops where a name is that of an exercise."""
    try:
        files = read_files(folder)
    except Trouble:
        if students:
            raise
        raise next(iter(refused.values())) from None
    _refuse_exercises([name for name in refused if name in files.course.exercises], asked)
    return files


def _refuse_exercises(ids: Sequence[str], asked: Asked) -> None:
    """Stop where exercises are typed behind the students, and say how both are typed."""
    if not ids:
        return
    also = [word for id_ in (*asked.extra, *ids) for word in ("--also", id_)]
    names = [as_typed(name) for name in asked.names if name not in ids]
    typed = " ".join(["wristwork", "send", *(names or ["Jo"]), *also])
    remedy = typed if names else say("say for whom, as in {command}", command=typed)
    raise Trouble(say("{id} is an exercise", id=ids[0]), remedy)


def _note(parcel: Parcel, people: StudentsFolder, day: date, files: CourseFiles, aside: Paint) -> None:
    """Note what is sent, and tell of it: before its message, so that whoever sends several knows whose is which."""
    student = parcel.student
    new = notes.sent(day, parcel.week.number, parcel.items, parcel.link)
    append(people, student, new)
    where = people.path / f"{student.key}.md"
    text = say("For {name}, week {number}, noted in {file}:", name=student.name, number=parcel.week.number, file=where)
    aside.line(aside.styled("good", text))
    after = replace(student, notes=(*student.notes, *new))
    for look in looks(after, day, grades(files.course.exercises)):
        aside.line(look_line(look, aside))
    question = unanswered(student)
    if question is not None:
        aside.line(f"  {question_words(question)}")


def _warnings(ids: Sequence[str], files: CourseFiles) -> Iterator[str]:
    """What would make the links lead nowhere."""
    unpublished = [name for name in dict.fromkeys(ids) if not files.book.has(name)]
    if unpublished:
        yield say_count(
            "{ids} was never published: run mkdocs build and put the site online, before you send the message",
            "{ids} were never published: run mkdocs build and put the site online, before you send the message",
            len(unpublished),
            ids=", ".join(unpublished),
        )
    host = urlsplit(files.config.site_url or "").hostname or ""
    if host.endswith(_NOBODYS):
        yield say("{host} is nobody's address: write yours as site_url: in mkdocs.yml, then send it again", host=host)
    elif _is_this_computer(host):
        yield say(
            "only this computer can open {host}: "
            "write the course's address as site_url: in mkdocs.yml, then send it again",
            host=host,
        )


def _is_this_computer(host: str) -> bool:
    try:
        address = ip_address(host)
    except ValueError:
        return host == "localhost"
    return address.is_loopback or address.is_unspecified


def _parcel(student: Student, asked: Asked, day: date, files: CourseFiles) -> Parcel:
    week = _week(asked.week or next_week(student, day), student, files)
    _refuse_closed(week, day)
    if any(fence.path == week.path and fence.pattern is None for fence in files.course.text.fences):
        found = say("week {number} can't be read whole, and something of it would be missing", number=week.number)
        raise Trouble(found, say("see wristwork check, then send it"))
    items = list(week_items(files.course, week, student))
    for name in asked.without:
        if name not in {item.id for item in items}:
            there = ", ".join(item.id for item in items)
            found = say("week {number} has no exercise '{name}' to leave out", number=week.number, name=name)
            raise Trouble(found, say("it has {ids}", ids=there) if there else say("it has nothing"))
        items = [item for item in items if item.id != name]
    extra = [_exercise(name, day, files) for name in asked.extra if name not in {item.id for item in items}]
    items += [item_of(exercise, student) for exercise in extra]
    if not items:
        remedy = say("put something on with --also, and an exercise's id")
        raise Trouble(say("nothing is left to send to {name}", name=student.name), remedy)
    if len(items) > MOST_ITEMS:
        found = say_count(
            "{count} exercise, and a list holds {most}",
            "{count} exercises, and a list holds {most}",
            len(items),
            most=MOST_ITEMS,
        )
        raise Trouble(found, say("leave some out with --without"))
    greeting = say("For {name}.", name=student.name) + " " if asked.with_name else ""
    words = f"{greeting}{asked.words}".strip()
    items[0] = replace(items[0], words=words)
    link = _link(items, files)
    return Parcel(student, week, tuple(items), link, _text(student, week, items, words, link, files))


def _text(student: Student, week: Week, items: Sequence[Item], words: str, link: str, files: CourseFiles) -> str:
    head = say("Week {number}", number=week.number) + f" · {safe_words(week.title)}"
    hand = [say(_LEFT)] if student.hand == "left" and not has_answered(student) else []
    lines = [head, *([safe_words(words)] if words else []), *hand]
    return message("\n".join(lines), items, files.course.exercises.values(), link)


def _link(items: Sequence[Item], files: CourseFiles) -> str:
    page = files.site.pages.get(LIST_PAGE)
    address = absolute(page.url, files.config.site_url or None) if page else None
    if address is None:
        found = say("the course does not say where it lives, so a link would lead nowhere")
        raise Trouble(found, say("write site_url: in mkdocs.yml"))
    link = f"{address}#{list_code(items)}"
    if len(link) > LONGEST_LINK:
        found = say("a link of {count} letters is too long for some chats", count=len(link))
        raise Trouble(found, say("shorten --words, or leave out with --without"))
    return link


def _week(number: int, student: Student, files: CourseFiles) -> Week:
    found = next((week for week in files.course.numbered if week.number == number), None)
    if found is None:
        numbers = ", ".join(str(week.number) for week in files.course.numbered)
        if numbers:
            remedy = say("say --week; there are {numbers}, and wristwork add week begins another one", numbers=numbers)
        else:
            remedy = say("the course has none; the first one begins with wristwork add week")
        raise Trouble(say("there is no week {number} to send to {name}", number=number, name=student.name), remedy)
    return found


def _refuse_closed(week: Week | None, day: date) -> None:
    """Stop at a week that is not on the site yet."""
    if week is not None and week.opens is not None and is_closed(week, day):
        found = say(
            "week {number} opens on {day}, and its link would show nothing before",
            number=week.number,
            day=day_words(week.opens),
        )
        raise Trouble(found, say("send something of another week"))


def _exercise(name: str, day: date, files: CourseFiles) -> Exercise:
    exercise = files.course.exercises.get(name)
    if exercise is None:
        near = nearest(name, files.course.exercises)
        remedy = say("did you mean {near}?", near=near) if near else say("its id is the last part of its address")
        raise Trouble(say("there is no exercise '{name}'", name=name), remedy)
    _refuse_closed(exercise.week, day)
    return exercise
