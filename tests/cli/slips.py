"""A German course for the marching snare, small enough to be read at a glance, and slips of the finger in it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

SETTINGS = """\
site_name: Trommelschule Lindenhof
site_url: https://lindenhof.example/trommeln/
theme:
  name: material
plugins:
  - search
  - wristwork:
      days: 5
      starts: 2027-01-11
"""
INDEX = """\
# Trommelschule Lindenhof

Marschtrommel für Anfänger.

<!-- wristwork: weeks -->
"""
WEEK_1 = """\
---
week: 1
title: Schritt und Schlag
aim: Vier Takte gehen und spielen.
grade: 1
minutes: 15
surface: practice pad
---

# Schritt und Schlag

Erst gehen, dann spielen.

```pattern
id: erster-schritt
title: Erster Schritt
tempo: 60 to 72 by 4
hands: R L R L
```

Der rechte Fuß geht mit der rechten Hand.

```pattern
id: doppelschritt
title: Doppelschritt
tempo: 60 to 72 by 4
requires: erster-schritt
hands: RL RL RL RL
```

Zwei Schläge auf jeden Schritt.
"""
WEEK_2 = """\
---
week: 2
title: Laut und leise
aim: Ein Akzent, danach gleich wieder leise.
grade: 1
minutes: 18
again: [erster-schritt]
---

# Laut und leise

Der Akzent fällt von oben.

```pattern
id: akzent-im-gehen
title: Akzent im Gehen
tempo: 60 to 72 by 4
from: doppelschritt
change: accent 1 5
```

Die [Übung davor](week-01.md#doppelschritt) langsamer wiederholen.
"""
WEEK_3 = """\
---
week: 3
title: Der Ruf
aim: Einen Ruf auswendig spielen.
grade: 2
minutes: 20
allow:
  steep-rise: Den Ruf kennen alle vom Umzug.
---

# Der Ruf

Am Ende der Straße.

```pattern
id: der-ruf
title: Der Ruf
tempo: 60 to 72 by 4
requires: akzent-im-gehen
hands: R>LRL RL R>LRL RL
note: Wie ein Echo.
```

Erst summen, dann spielen.
"""
ADDRESSES = """\
# Adressen
akzent-im-gehen: {title: "Akzent im Gehen", lesson: "weeks/week-02.md"}
der-ruf: {title: "Der Ruf", lesson: "weeks/week-03.md"}
doppelschritt: {title: "Doppelschritt", lesson: "weeks/week-01.md"}
erster-schritt: {title: "Erster Schritt", lesson: "weeks/week-01.md"}
"""
FILES = {
    "mkdocs.yml": SETTINGS,
    "addresses.yml": ADDRESSES,
    "docs/index.md": INDEX,
    "docs/weeks/week-01.md": WEEK_1,
    "docs/weeks/week-02.md": WEEK_2,
    "docs/weeks/week-03.md": WEEK_3,
}
Make = Callable[[Path], object]


def make_course(folder: Path) -> None:
    """Write the course, with no slip in it."""
    for name, text in FILES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def slip(name: str, old: str, new: str) -> Make:
    """Something else typed in the place of something, once."""

    def make(folder: Path) -> None:
        text = (folder / name).read_text(encoding="utf-8")
        assert text.count(old) >= 1, (name, old)
        (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")

    return make


def put(name: str, content: bytes) -> Make:
    """A whole file."""

    def make(folder: Path) -> None:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)

    return make


def recoded(name: str, encoding: str) -> Make:
    """A file saved in another encoding."""
    return lambda folder: (folder / name).write_bytes(FILES[name].encode(encoding))


W1, W2, W3, SET, ADR, HOME = (
    "docs/weeks/week-01.md", "docs/weeks/week-02.md", "docs/weeks/week-03.md", "mkdocs.yml", "addresses.yml",
    "docs/index.md",
)  # fmt: skip

# What was done, where the first thing told stands, words of it, how many things are told in all.
SLIPS: list[tuple[Make, str, str, int]] = [
    # front matter
    (slip(W1, "surface:", "surfce:"), f"{W1}:7", "surfce: says nothing", 1),
    (slip(W1, "RL RL RL RL", "RL {RL RL RL"), f"{W1}:28", "a bracket that is not closed", 1),
    (slip(W1, "R L R L", "% | R L R L"), f"{W1}:18", "with no such bars before it", 1),
    (slip(W1, "R L R L", "R L R L\nrepeats: bars 1 to 2"), f"{W1}:19", "a repeat that goes up to bar 2", 1),
    (slip(W1, "R L R L", "R L R L\nrepeat: bar 1"), f"{W1}:19", "'bar 1' is no", 1),
    (slip(W1, "R L R L", "R | R L R L\npickup: 1\ntime: 4/4"), f"{W1}:19", "an unknown key 'pickup'", 1),
    (slip(W2, "again:", "agian:"), f"{W2}:7", "agian: says nothing", 1),
    (slip(W1, "minutes:", "minuts:"), f"{W1}:6", "minuts: says nothing", 1),
    (slip(W1, "week: 1", "Week: 1"), f"{W1}:2", "Week: says nothing", 1),
    (slip(W1, "week: 1", "weeek: 1"), f"{W1}:2", "weeek: says nothing", 1),
    (slip(W1, "practice pad\n---\n", "practice pad\n"), f"{W1}:7", "not closed below this line", 1),
    (slip(W1, "practice pad\n---\n", "practice pad\n--\n"), f"{W1}:8", "'--' below settings", 1),
    (slip(W1, "---\nweek", "week"), f"{W1}:1", "without a line of --- above", 1),
    (slip(W1, "---\nweek", "\n---\nweek"), f"{W1}:2", "below a blank line", 1),
    (slip(W1, "title: Schritt", "\ttitle: Schritt"), f"{W1}:3", "a tab before the text", 1),
    (slip(W1, "title: Schritt", "  title: Schritt"), f"{W1}:3", "an indented line", 1),
    (slip(W1, "title: Schritt und Schlag", 'title: "Schritt und Schlag'), f"{W1}:3", "mark is not closed", 1),
    (slip(W1, "aim: Vier Takte", "aim: Ziel: Vier Takte"), f"{W1}:4", "a text that holds a colon", 1),
    (slip(W1, "week: 1", "week:1"), f"{W1}:2", "no blank after the colon of week", 1),
    (slip(W1, "week: 1", "week: eins"), f"{W1}:2", "week: expected a whole number", 1),
    (slip(W1, "week: 1", "week:"), f"{W1}:2", "week: without a number", 1),
    (slip(W1, "minutes: 15", "minutes: 15 Minuten"), f"{W1}:6", "found '15 Minuten'", 1),
    (slip(W1, "minutes: 15", "minutes: 500"), f"{W1}:6", "from 5 to 240, found 500", 1),
    (slip(W1, "grade: 1", "grade: 1,5"), f"{W1}:5", "grade: expected a whole number", 1),
    (slip(W1, "title: Schritt und Schlag", "title: 2001-99-99"), f"{W1}:3", "written like a date", 1),
    (slip(HOME, "# Trommel", "---\ndate: 2026-02-30\n---\n\n# Trommel"), f"{HOME}:2", "2026-02-30 is written", 1),
    (slip(W1, "surface: practice pad", "surface: Übungspad"), f"{W1}:7", "surface 'Übungspad'", 1),
    (slip(W2, "[erster-schritt]", "[erster-schrit]"), f"{W2}:7", "'erster-schrit' is not an exercise", 1),
    (slip(W2, "[erster-schritt]", "[erster-schritt"), f"{W2}:7", "a list that is not closed", 1),
    (slip(W3, "steep-rise:", "steeprise:"), f"{W3}:7", "no check called 'steeprise'", 1),
    (slip(W3, "  steep-rise:", "  hand-speed der-ruff: Kurz.\n  steep-rise:"), f"{W3}:7", "did you mean der-ruf?", 1),
    (slip(W3, " Den Ruf kennen alle vom Umzug.", ""), f"{W3}:7", "steep-rise has no reason", 1),
    (slip(W1, "week: 1", "week: 1\ntitle: \x1b[31mrot"), f"{W1}:3", "can't be shown (U+001B)", 1),
    (slip(W1, "week: 1", "week: 1\nweek: 2"), f"{W1}:3", "week: stands here a second time, and what line 2", 1),
    # settings
    (slip(SET, "days: 5", "days: 9"), f"{SET}:8", "Expected 1 to 7 days a week", 1),
    (slip(SET, "days: 5", "days: yes"), f"{SET}:8", "found yes", 1),
    (slip(SET, "days: 5", "dayz: 5"), f"{SET}:8", "an unknown setting 'dayz'", 1),
    (slip(SET, "2027-01-11", "11.01.2027"), f"{SET}:9", "Expected a date like", 1),
    (slip(SET, "days: 5", "show: count, strikes"), f"{SET}:8", "Unknown row 'strikes'", 1),
    (slip(SET, "- wristwork:", "- wristwrok:"), f"{SET}:7", "there is no plugin 'wristwrok'", 1),
    (slip(SET, "- search", "- serch"), f"{SET}:6", "the plugin 'serch' is not installed", 1),
    (slip(SET, "plugins:", "plugns:"), f"{SET}:1", "the plugin wristwork is not switched on", 2),
    (slip(SET, "theme:", "plugins:\n  - search\ntheme:"), f"{SET}:7", "plugins: stands here a second time", 1),
    (slip(SET, "starts: 2027-01-11\n", "starts: 2027-01-11\nplugins:\n  - search\n"), f"{SET}:10", "a second time", 2),
    (
        slip(SET, "plugins:\n  - search\n  - wristwork:\n      days: 5\n      starts: 2027-01-11\n", ""),
        f"{SET}:1",
        "the plugin wristwork is not switched on",
        1,
    ),
    (
        slip(SET, "theme:", "nav:\n  - index.md\n  - weeks/week-1.md\ntheme:"),
        f"{SET}:5",
        "nav names weeks/week-1.md",
        1,
    ),
    (slip(SET, "theme:", "exclude_docs: week-02.md\ntheme:"), f"{W2}:15", "in a page that exclude_docs", 1),
    # pages and files
    (recoded(W1, "latin-1"), f"{W1}:21", "not written in UTF-8", 1),
    (recoded(HOME, "utf-16"), f"{HOME}:1", "but in UTF-16", 1),
    (recoded(W2, "latin-1"), f"{W2}:12", "not written in UTF-8", 1),
    (put(W2, FILES[W2].encode("utf-32")), f"{W2}:1", "but in UTF-32", 1),
    (put(W2, b""), f"{W2}:1", "an empty page, where exercises were published", 1),
    (put(W2, b"\x00" * 100), f"{W2}:1", "an empty page, where exercises were published", 1),
    (lambda folder: [(folder / W2).unlink(), (folder / W2).symlink_to("nowhere")], W2, "can't be read", 1),
    (
        lambda folder: (folder / W1).rename(folder / "docs/weeks/erste.md"),
        f"{W2}:22",
        "write erste.md#doppelschritt",
        1,
    ),
    (put("docs/warm.md", b"---\nsafe-practice: warmup\n---\n"), "docs/warm.md:2", "write one of warm-up,", 1),
    (put("docs/worker.js", b"//"), "docs/worker.js", "Wristwork writes itself", 1),
    (put("docs/course.json", b"{}"), "docs/course.json", "Wristwork writes itself", 1),
    (put("docs/x/der-ruf.md", b"# Mein Ruf\n"), "docs/x/der-ruf.md", "Wristwork writes itself", 1),
    (put("sounds/snare-accnt-1.wav", b"RIFF"), "sounds/snare-accnt-1.wav", "names no sound", 1),
    (put("sounds/snare-accent-1.wav", b"RIFF"), "sounds/snare-accent-1.wav", "can't be read as WAV", 1),
    (slip(HOME, "wristwork: weeks", "wristwork: weks"), f"{HOME}:5", "nothing is marked by 'weks'", 1),
    (slip(HOME, "wristwork: weeks", "wristwrok: weeks"), f"{HOME}:5", "'wristwrok:', which marks nothing", 1),
    (slip(HOME, "<!-- wristwork: weeks -->", "<!--ww-slot weeks-->"), f"{HOME}:5", "which marks nothing", 1),
    (slip(HOME, "wristwork: weeks", "wristwork: sound-day"), f"{HOME}:5", "only a safe-practice page holds", 1),
    (slip(W2, "week-01.md#", "week-1.md#"), f"{W2}:22", "leads nowhere", 1),
    (slip(W2, "#doppelschritt", "#doppelschrit"), f"{W2}:22", "leads nowhere", 1),
    # fences
    (slip(W3, "```pattern", "```Pattern"), f"{W3}:15:4", "a fence called 'Pattern'", 1),
    (slip(W3, "```pattern", "```patern"), f"{W3}:15:4", "a fence called 'patern'", 1),
    (slip(W1, "hands: R L R L\n```\n", "hands: R L R L\n"), f"{W1}:14:1", "a pattern fence that is not closed", 1),
    (slip(W3, "note: Wie ein Echo.\n```\n", "note: Wie ein Echo.\n"), f"{W3}:15:1", "that is not closed", 1),
    (slip(W1, "Erst gehen", "```text\nErst gehen"), f"{W1}:12:1", "not closed before line 15, where a pattern", 1),
    (slip(W1, "Erst gehen, dann spielen.", "<!-- später"), f"{W1}:12", "a comment that is not closed", 1),
    (slip(W3, "Am Ende der Straße.", "Das Ende. <!-- später"), f"{W3}:13", "a comment that is not closed", 1),
    (slip(W2, "```pattern", "<!--\n```pattern"), f"{W2}:14", "a comment that is not closed", 1),
    (slip(W1, "Zwei Schläge", "<!-- ende -->\n\nZwei Schläge"), "", "", 0),
    (
        lambda folder: [
            slip(W1, "Erst gehen", "<!-- Erst gehen")(folder),
            slip(W1, "Zwei", "<!-- ende -->Zwei")(folder),
        ],
        f"{W1}:12:1",
        "not closed before the pattern in line 14",
        1,
    ),
    (
        lambda folder: [slip(W3, "```pattern", "<!--\n```pattern")(folder), slip(W3, "Erst", "-->\nErst")(folder)],
        f"{W3}:17",
        "which was published, stands here and is not read",
        1,
    ),
    (slip(W3, "```pattern", "``pattern"), f"{W3}:15:1", "``pattern, which opens no fence", 1),
    (slip(W1, "```pattern", "\u2018\u2018\u2018pattern"), f"{W1}:14:1", "pattern, which opens no fence", 1),
    # patterns
    (slip(W1, "hands: R L R L", "hands: R L R X"), f"{W1}:18:14", "'X' means nothing here", 1),
    (slip(W1, "tempo: 60 to 72 by 4", "tempo: 72 bis 60"), f"{W1}:17:8", "is no tempo", 1),
    (slip(W1, "tempo:", "Tempo:"), f"{W1}:17:1", "an unknown key 'Tempo'", 1),
    (slip(W1, "id: erster-schritt", "id: Erster Schritt"), f"{W1}:15:5", "is no id", 1),
    (slip(W1, "id: erster-schritt", "id: con"), f"{W1}:15:5", "an id called 'con'", 1),
    (slip(W3, "note: Wie", "repeat: 0000099999\nnote: Wie"), f"{W3}:21:9", "is no number of times", 1),
    (slip(W2, "from: doppelschritt", "from: doppelschrit"), f"{W2}:18:7", "is not an exercise of this course", 1),
    (slip(W2, "id: akzent-im-gehen", "id: doppelschritt"), f"{W2}:15:5", "is taken by the pattern", 1),
    (slip(W3, "note: Wie", "no\x1bte: Wie"), f"{W3}:21:1", "an unknown key", 1),
    (slip(W1, "hands: R L R L", "\thands: R L R L"), f"{W1}:18:2", "the key hands in an indented line", 1),
    (slip(W1, "id: erster-schritt", " id: erster-schritt"), f"{W1}:15:2", "no line above it to carry on", 1),
    (slip(W3, "id: der-ruf", "id: Der-Ruf"), f"{W3}:16:5", "is no id", 1),
    (
        lambda folder: [slip(W3, "id: der-ruf", "id: Der-Ruf")(folder), slip(W3, "Der Ruf\ntempo", "X\ntempo")(folder)],
        f"{W3}:16:5",
        "is no id",
        1,
    ),
    (slip(W3, "note: Wie", "time: 4/4 2+2\nnote: Wie"), f"{W3}:21:7", "write it as 4/4, 6/8 or 7/8 as 2+2+3", 1),
    (slip(W1, "hands: RL RL", "drums: snare high mid\nhands: RL RL"), f"{W1}:28:8", "a comma after each group", 1),
    (slip(W3, "note: Wie", "sections: A at bar 1 B at bar 2\nnote: Wie"), f"{W3}:21:11", "names two moments", 1),
    # addresses
    (slip(W3, "id: der-ruf", "id: der-grosse-ruf"), f"{ADR}:3:1", "was published and is gone", 1),
    (slip(W3, "```pattern\n", "````text\n```pattern\n"), "", "", 0),
    (slip(ADR, 'lesson: "weeks/week-03.md"}', 'lesson: "weeks/week-03.md", retird: "weg"}'), f"{ADR}:3:1", "retird", 1),
    (lambda folder: (folder / W3).unlink(), f"{ADR}:3:1", "was published and is gone", 1),
]
