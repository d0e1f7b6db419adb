"""What the student's own pages are made of: the course as data, rooms for the scripts, the site as an app."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from markupsafe import Markup

from wristwork.course.exercise import json_bytes
from wristwork.course.safety import breaks
from wristwork.course.safety.safe_practice import STOP_RULE, Topic
from wristwork.course.safety.warm_up import EASE_OFF, SHORT, Routine
from wristwork.languages.say import say
from wristwork.pattern.pace import pace
from wristwork.site.exercise.place_page import SiteName
from wristwork.site.exercise.record import AddressBook
from wristwork.site.frontend.head import OWN_PAGE
from wristwork.site.reading.course_site import CourseSite
from wristwork.site.safety.warm_up_timer import step_data
from wristwork.site.templating import markup
from wristwork.sound.schedule import pass_beats

COURSE = "course.json"


def practice_list(site: CourseSite, url: str) -> Markup:
    """The room of the practice list."""
    return markup("student/room.html", room="list")


def my_practice(site: CourseSite, url: str) -> Markup:
    """The room of the student's log."""
    return markup("student/room.html", room="log")


def course_data(site: CourseSite, name: SiteName, book: AddressBook) -> bytes:
    """The course as the student's pages need it: addresses from the site's root, minutes and seconds."""
    data: dict[str, Any] = {
        "schema": 1,
        "name": name.name,
        "starts": site.starts.isoformat() if site.starts else None,
        "weeks": [
            {
                "number": page.number,
                "title": page.title,
                "page": page.url,
                "teaches": [placed.id for placed in site.exercises_on(page)],
                "ids": [placed.id for placed in site.practised_on(page)],
                "sessions": len(site.course.plans[page.path]),
                "known": site.course.known_before(page.week) if page.week else (),
            }
            for page in site.weeks
        ],
        "exercises": {
            placed.id: {
                "title": placed.title,
                "from": placed.page.name,
                "lesson": placed.address,
                "tempo": [placed.pattern.tempo.start, placed.pattern.tempo.goal],
                "beats": round(pace(placed.pattern).elapsed(Fraction(pass_beats(placed.pattern)))),
            }
            for placed in site.exercises.values()
        },
        "moved": dict(book.forwards),
        "retired": list(book.retired),
        "warmUp": _routine(SHORT),
        "easeOff": _routine(EASE_OFF),
        "warmUpPage": site.pages[Topic.WARM_UP.src_uri].url if Topic.WARM_UP.src_uri in site.pages else None,
        "stop": say(STOP_RULE),
        "breakEvery": breaks.PLAYING_AT_MOST,
        "breakMinutes": breaks.BREAK_MINUTES,
    }
    return json_bytes(data)


def _routine(routine: Routine) -> dict[str, Any]:
    steps = [{**step_data(step), "seconds": seconds} for step, seconds in routine.timed_steps]
    return {"title": say(routine.title), "minutes": routine.minutes, "steps": steps}


def manifest(site: CourseSite, name: SiteName, description: str | None) -> bytes:
    """The site as an app on a home screen; addresses are relative to this file, at the site's root."""

    def icon(size: int, purpose: str = "any") -> dict[str, str]:
        file = f"icon-{size}.png" if purpose == "any" else f"icon-{size}-full.png"
        src = f"{name.look.home_icons}/{file}"
        return {"src": src, "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}

    data: dict[str, Any] = {
        "id": "./",
        "name": name.name,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": name.look.colours.light["paper"],
        "theme_color": name.look.colours.light["deep"],
        "lang": name.language,
        "icons": [icon(192), icon(512), icon(512, "maskable")],
        "shortcuts": [{"name": say("My practice"), "url": site.pages[OWN_PAGE].url}] if OWN_PAGE in site.pages else [],
    }
    if description:
        data["description"] = description
    return json_bytes(data)
