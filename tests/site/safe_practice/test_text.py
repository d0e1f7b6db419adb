"""The words of the safe-practice pages: complete, sourced, and no number that is not in the facts table."""

import html
import json
import re
from pathlib import Path

import markdown
import pytest
import yaml

from tests.site.safe_practice.prose import Sentence, is_notice, known_quantities, quantities, sentences
from wristwork.course.safety import exposure, facts, safe_practice, warm_up
from wristwork.course.safety.safe_practice import Topic
from wristwork.site.safety import safe_pages, sound_day
from wristwork.site.safety.safe_pages import finished, standard_page

DOCS = Path(__file__).parents[3] / "docs"
EXTENSIONS = ["admonition", "attr_list", "footnotes", "tables"]

# Sentences that state nothing about the world: what this page, course, tool or (invented) studio does,
# what a word means here, or that nothing is promised. Each must still be there, so that the list stays true.
STATES_NO_FACT = {
    # Warm-up
    "A survey shows what goes together, not what causes what, and no warm-up is a promise.",
    "It costs a few minutes and is a good habit all the same.",
    "Choose the short or the full warm-up before you play, and the ease-off when you are done.",
    "The timer can be read from across the room, and a quiet sound marks each change.",
    # Posture
    "A neutral posture is one in which no joint is bent far to any side.",
    "The drawings show where to start: bodies differ, and what is right for you may look different.",
    # Hearing
    "How loud it is where you play depends on drums, room and player.",
    "Until somebody measures, this course guesses, and counts with the higher end.",
    "It counts levels averaged over time; single peaks are not in it.",
    "Enter every part of your day that is not quiet: practice, lesson, rehearsal, the way there, music on headphones.",
    "**What this is not.",
    "It is an estimate: no measurement, no law, and no promise.",
    "It is not made for children as it is.",
    "A part of the day that you leave out is missing in the result.",
    "**NRR.",
    "**SNR.",
    "**Fit-tested value.",
    "That is why flat plugs look worse here than they are when they fit.",
    "What a test of your own protection in your own ears has shown.",
    "It is taken off as it is.",
    "A tutor who teaches, or employs others, falls under the local law.",
}
BOATHOUSE_WAYS = {
    "At the Boathouse every lesson begins with the short warm-up, and we do it together: nobody is too good for it, "
    "and nobody has to be quick at it.",
    "It counts as practice, so your practice card has its minutes in it.",
    "In the cold months, when the room takes a while to get warm, take the full one.",
    "Six people use the pad stand by the window in one day, so at the Boathouse nobody plays before they have set it "
    "for themselves.",
    "Put coloured tape on the tube of the stand, one colour each: finding your own height then takes a moment, and "
    "you need not remember a number.",
    "Sit as you sit at home.",
    "If that is a kitchen chair, bring a picture of it to the first lesson.",
    "When pad and seat are set, one of us looks from the side while the other plays one slow stroke, as in these "
    "pictures:",
    "The rule of the Boathouse is short: the box with ear protection hangs by the door of the kit room, and nobody "
    "goes past it without, tutors and parents who listen included.",
    "The pads are on this side of the door.",
    "That is why nine of the twelve weeks of this course are written for the pad.",
}


def parts_of(text):
    """Front matter and body of a page as its file holds it."""
    _, front, body = text.split("---\n", 2)
    return yaml.safe_load(front), body


def standard(topic):
    front, body = parts_of(standard_page(topic))
    assert front == {"title": topic.page_title, "safe-practice": topic.value}
    return finished(topic, body)


def boathouse(topic):
    front, body = parts_of((DOCS / topic.src_uri).read_text(encoding="utf-8"))
    assert front["safe-practice"] == topic.value
    return finished(topic, body, front["standard-text"])


PAGES = {f"{maker.__name__} {topic}": (maker, topic) for maker in (standard, boathouse) for topic in Topic}


@pytest.fixture(params=PAGES.values(), ids=PAGES)
def page(request):
    maker, topic = request.param
    return topic, maker(topic)


def unsourced(text: str) -> list[str]:
    """Sentences with neither a source nor the mark of usual advice."""
    return [
        sentence.text
        for sentence in sentences(text)
        if not (sentence.sources or sentence.is_advice or is_notice(sentence.text))
        and sentence.text not in STATES_NO_FACT | BOATHOUSE_WAYS
    ]


def test_every_sentence_has_a_source_or_is_marked_usual_advice(page):
    _, text = page
    assert unsourced(text) == []


def test_the_exempt_sentences_are_all_there():
    found = {sentence.text for maker, topic in PAGES.values() for sentence in sentences(maker(topic))}
    assert (STATES_NO_FACT | BOATHOUSE_WAYS) - found == set()


def test_a_planted_claim_is_listed():
    text = standard(Topic.HEARING).replace("### Measuring", "Earmuffs make drums harmless.\n\n### Measuring")
    assert unsourced(text) == ["Earmuffs make drums harmless."]


def test_a_claim_after_the_advice_section_is_listed():
    text = "## A\n\nUsual advice of teachers and therapists\n{ .x }\n\nSit well.\n\n### B\n\nGood.\n\n## C\n\nBad.\n"
    found = [(sentence.text, sentence.is_advice) for sentence in sentences(text)]
    assert found == [("Sit well.", True), ("Good.", True), ("Bad.", False)]


def test_references_belong_to_their_own_sentence():
    assert list(sentences("One says so.[^a] [^b] Two does not.")) == [
        Sentence("One says so.", ("a", "b"), False),
        Sentence("Two does not.", (), False),
    ]


def test_every_reference_has_its_source_on_the_page(page):
    _, text = page
    used = {key for sentence in sentences(text) for key in sentence.sources}
    assert used <= {entry.key for entry in facts.SOURCES}
    for entry in facts.SOURCES:
        definition = f"[^{entry.key}]: [{entry.title}]({entry.url}) says: {entry.says}"
        assert (definition in text) == (entry.key in used)


def test_every_source_is_used_somewhere():
    used = {key for topic in Topic for sentence in sentences(standard(topic)) for key in sentence.sources}
    assert used == {entry.key for entry in facts.SOURCES}


def allowed_quantities():
    lengths = [routine.seconds for routine in warm_up.ROUTINES]
    lengths += [seconds for routine in warm_up.ROUTINES for _, seconds in routine.timed_steps]
    return known_quantities() | {(seconds / 60, "min") for seconds in lengths}


def test_every_number_is_in_the_facts_table(page):
    _, text = page
    found = [(sentence.text, number) for sentence in sentences(text) for number in quantities(sentence.text)]
    assert [entry for entry in found if entry[1] not in allowed_quantities()] == []


def test_the_hearing_page_holds_the_numbers_it_should():
    found = {number for sentence in sentences(standard(Topic.HEARING)) for number in quantities(sentence.text)}
    expected = [(106, "dB(A)"), (137, "dB"), (120, "dB"), (85, "dB(A)"), (8, "h"), (3, "dB"), (5, "days"), (40, "h")]
    expected += [(75, "dB(A)"), (80, "dB(A)"), (23.4, "dB"), (4, "dB"), (135, "dB(C)"), (137, "dB(C)"), (87, "dB(A)")]
    expected += [(140, "dB(C)"), (400, "percussionists")]
    assert set(expected) <= found


def test_a_planted_number_is_found():
    assert list(quantities("Between 80 and 86 dB(A) for five hours a week, NRR 23.5, 90 percent.")) == [
        (80, "dB(A)"),
        (86, "dB(A)"),
        (5, "h"),
        (23.5, "dB"),
        (90, "%"),
    ]
    assert (86, "dB(A)") not in allowed_quantities()


@pytest.mark.parametrize("entry", facts.SOURCES, ids=lambda entry: entry.key)
def test_what_a_source_says_has_no_other_numbers(entry):
    assert [number for number in quantities(entry.says) if number not in allowed_quantities()] == []
    assert entry.url.startswith("https://")


def test_every_page_holds_its_notices_word_for_word(page):
    topic, text = page
    for notice in safe_practice.REQUIRED[topic]:
        assert text.count(notice.text) == 1


COURSE_PAGES = sorted(page for folder in (DOCS, DOCS.parent / "seeds") for page in folder.rglob("*.md"))


def test_the_stop_rule_has_the_same_words_everywhere():
    saying = [page for page in COURSE_PAGES if "numbness" in page.read_text(encoding="utf-8")]
    assert len(saying) >= 5
    for page in saying:
        words = " ".join(page.read_text(encoding="utf-8").split())
        assert words.count("numbness") == words.count(safe_practice.STOP_RULE), page


def test_a_page_of_the_tutors_own_is_kept_and_completed():
    text = finished(Topic.POSTURE, "# Sit\n\nOn a drum stool.\n")
    assert text.startswith("# Sit\n\nOn a drum stool.\n\n## Cautions")
    assert "## From the side" not in text
    assert "## Sources" not in text


def test_a_page_of_the_tutors_own_may_add_the_standard_text():
    text = finished(Topic.POSTURE, "# Sit\n\nOn a drum stool.\n", standard_text=True)
    assert text.index("On a drum stool.") < text.index("## From the side")
    assert text.count("\n# ") == 0
    assert text.count(safe_practice.STOP_RULE) == 1


def test_a_tutors_own_footnote_of_the_same_name_is_kept():
    text = finished(Topic.HEARING, "Loud.[^niosh-1998]\n\n[^niosh-1998]: My own note.\n")
    assert text.count("[^niosh-1998]:") == 1


def test_blocks_work_on_a_page_of_the_tutors_own():
    text = finished(Topic.HEARING, "# Ears\n\n<!-- wristwork: sound-day -->\n")
    assert 'data-ww-sound-day="' in text


def test_the_handbook_names_every_block():
    handbook = (DOCS / "handbook" / "weeks.md").read_text(encoding="utf-8")
    assert [name for name in safe_pages.BLOCKS if f"`{name}`" not in handbook] == []


@pytest.mark.parametrize("topic", Topic)
def test_every_block_becomes_whole_html(topic):
    converted = markdown.markdown(standard(topic), extensions=EXTENSIONS)
    assert "wristwork:" not in converted
    assert "&lt;div" not in converted
    assert "&lt;svg" not in converted
    assert "!!!" not in converted
    for name in ("div", "svg", "figure", "table", "dl"):
        assert len(re.findall(rf"<{name}\b", converted)) == converted.count(f"</{name}>")


def test_drawings_have_names_and_ids_of_their_own():
    pictures = "".join(block() for block in safe_pages.BLOCKS.values())
    ids = re.findall(r' id="([^"]+)"', pictures)
    assert len(ids) == len(set(ids)) > 20
    for drawing in re.findall(r"<svg.*?</svg>", pictures):
        title, description = re.search(r"<title[^>]*>(.*?)</title><desc[^>]*>(.*?)</desc>", drawing).groups()
        assert title
        assert len(description) > 40


def test_drawings_take_their_colours_from_the_page():
    pictures = "".join(block() for block in safe_pages.BLOCKS.values())
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', pictures))
    assert all(colour == "none" or colour.startswith("var(--ww-") for colour in colours)


def test_the_four_positions_and_strokes_are_drawn():
    assert safe_pages.BLOCKS["four-positions"]().count("<svg") == 4
    strokes = safe_pages.BLOCKS["four-strokes"]()
    for name in ("Full: starts high, ends high", "Down: starts high, ends low", "Tap: starts low, ends low"):
        assert name in strokes
    assert "Up: starts low, ends high" in strokes


def test_the_calculators_data_is_the_facts():
    (raw,) = re.findall(r'data-ww-sound-day="([^"]*)"', sound_day.calculator())
    data = json.loads(html.unescape(raw))
    assert (data["limitLevel"], data["limitMinutes"], data["exchangeRate"]) == (85, 480, 3)
    assert [surface["level"] for surface in data["surfaces"]] == [known.level for known in exposure.SURFACES]
    assert [kind["key"] for kind in data["protection"]] == [kind.key for kind in exposure.PROTECTION_KINDS]


def test_the_table_without_scripts():
    table = sound_day.calculator()
    # 110 dB(A): 480 / 2^(25/3) = 1.488 min; less 10 dB 15 min; less 20 dB 151 min. Rounded down.
    acoustic = table[table.index('<th scope="row">Acoustic kit') :]
    cells = re.findall(r"<td>(.*?)</td>", acoustic[: acoustic.index("</tr>")])
    assert cells == ["110 dB(A)", "1.4 min", "15 min", "2 h 31 min"]


def test_the_published_table_is_on_the_page():
    cells = re.findall(r'<th scope="row">(.*?)</th><td>(.*?)</td>', sound_day.allowed_times())
    expected = {"85": "8 h", "88": "4 h", "91": "2 h", "94": "1 h", "97": "30 min", "100": "15 min", "103": "7.5 min"}
    assert cells == [(f"{level} dB(A)", time) for level, time in expected.items()]


@pytest.mark.parametrize(
    ("minutes", "says"),
    [
        (1e6, "24 h"),
        (1440, "24 h"),
        (480, "8 h"),
        (239.999, "3 h 59 min"),
        (151.19, "2 h 31 min"),
        (60, "1 h"),
        (59.9, "59 min"),
        (10, "10 min"),
        (7.5, "7.5 min"),
        (0.09, "0 min"),
    ],
)
def test_times_are_said_rounded_down(minutes, says):
    assert sound_day.say_minutes(minutes) == says


def test_page_timer_and_table_of_the_warm_up_agree():
    text = standard(Topic.WARM_UP)
    (raw,) = re.findall(r'data-ww-warm-up="([^"]*)"', text)
    routines = json.loads(html.unescape(raw))
    headings = re.findall(r"^### (.*?)(?: \(|$)", text, flags=re.MULTILINE)
    assert {step["name"] for routine in routines for step in routine["steps"]} == set(headings)
    rows = {cells[0]: cells[1:] for cells in re.findall(r"^\| (.*?) \| (.*?) \| (.*?) \|$", text, flags=re.MULTILINE)}
    for column, routine in enumerate(routines[:2]):
        assert rows["In all"][column] == f"{routine['minutes']} min"
        for step in routine["steps"]:
            minutes = step["seconds"] / 60
            assert rows[step["name"]][column] == f"{int(minutes) or ''}{'½' if minutes % 1 else ''} min"
    assert text.count("```pattern\nexample: yes") == 7
