"""Scores as other writers make them: a few bars of notes, put together from short words."""

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
PLACES = {"snare": "C5", "hat": "G5", "kick": "F4", "ride": "F5", "crash": "A5", "floor": "A4"}


def note(drum, duration, *, voice=1, chord=False, before="", inside="", instrument="", place=None):
    """A note element; ``before`` stands first in it (grace), ``inside`` after its type."""
    place = place or PLACES[drum]
    head = "<notehead>x</notehead>" if drum in ("hat", "ride", "crash") else ""
    unpitched = f"<display-step>{place[0]}</display-step><display-octave>{place[1]}</display-octave>"
    lasts = f"<duration>{duration}</duration>" if duration else ""
    named = f'<instrument id="{instrument}"/>' if instrument else ""
    return (
        f"<note>{before}{'<chord/>' if chord else ''}<unpitched>{unpitched}</unpitched>{lasts}{named}"
        f"<voice>{voice}</voice>{head}{inside}</note>"
    )


def rest(duration, voice=1):
    return f"<note><rest/><duration>{duration}</duration><voice>{voice}</voice></note>"


def back(duration):
    return f"<backup><duration>{duration}</duration></backup>"


def attributes(divisions=2, time="4/4"):
    beats, lower = time.split("/")
    return (
        f"<attributes><divisions>{divisions}</divisions><time><beats>{beats}</beats><beat-type>{lower}</beat-type></time>"
        "</attributes>"
    )


def part(*bars, name="P1"):
    rows = "".join(f'<measure number="{number}">{bar}</measure>' for number, bar in enumerate(bars, 1))
    return f'<part id="{name}">{rows}</part>'


def score(*parts, listed="", title=""):
    about = f"<work><work-title>{title}</work-title></work>" if title else ""
    listed = listed or '<score-part id="P1"><part-name>Drums</part-name></score-part>'
    whole = f'<score-partwise version="3.1">{about}<part-list>{listed}</part-list>{"".join(parts)}</score-partwise>'
    return f"{HEAD}{whole}".encode()
