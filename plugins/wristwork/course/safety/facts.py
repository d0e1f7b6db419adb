"""The facts that the safe-practice pages, the calculator and the plan stand on.

Every figure lives here once, with its unit and where it comes from. What comes from no publication
is either usual advice of teachers and therapists or a setting of our own, and says so.
"""

from __future__ import annotations

from dataclasses import dataclass

from wristwork.languages.say import marked


@dataclass(frozen=True, slots=True)
class Source:
    """A publication and what it says that we use.

    ``key`` is the footnote's name on the pages; ``title`` says who, what and when.
    """

    key: str
    title: str
    url: str
    says: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A number with its unit, what it is the number of, and where it comes from.

    ``source`` is the key of a :class:`Source`, :data:`USUAL_ADVICE` or :data:`OUR_SETTING`.
    """

    value: float
    unit: str
    of: str
    source: str


USUAL_ADVICE = "usual advice"
OUR_SETTING = "our own setting"

SOURCES: tuple[Source, ...] = (
    Source(
        "azar-2022",
        "N. Azar, “Injury prevention considerations for drum kit performance”, Frontiers in Psychology 13, 2022",
        "https://doi.org/10.3389/fpsyg.2022.883279",
        marked(
            "playing-related musculoskeletal disorders are very common in drummers, above all in the upper limbs, "
            "tendinitis and carpal tunnel syndrome among them; non-neutral postures, repetitive movement and hand-arm "
            "vibration are risk factors."
        ),
    ),
    Source(
        "azar-2021",
        "N. Azar, Journal of Popular Music Education 5(2), 2021",
        "https://doi.org/10.1386/jpme_00057_1",
        marked(
            "a survey of 831 drummers: those who had been taught no injury prevention in lessons were nearly twice as "
            "likely to report such disorders, and warmed up, cooled down and exercised less."
        ),
    ),
    Source(
        "chan-ackermann-2014",
        "Chan and Ackermann, Frontiers in Psychology 5:706, 2014",
        "https://doi.org/10.3389/fpsyg.2014.00706",
        marked(
            "musicians named excessive or suddenly increased playing load as a major cause; no figure is given for how "
            "fast is too fast."
        ),
    ),
    Source(
        "fujii-2009",
        "Fujii, Kudo, Ohtsuki and Oda, Neuroscience Letters 459, 2009",
        "https://www.sciencedirect.com/journal/neuroscience-letters/vol/459",
        marked("fast tapping that stays stable comes with a compliant wrist, not a stiff one."),
    ),
    Source(
        "niosh-1998",
        "NIOSH, Criteria for a recommended standard: occupational noise exposure, Publication 98-126, 1998",
        "https://www.cdc.gov/niosh/docs/98-126/",
        marked(
            "recommended limit 85 dB(A) averaged over 8 hours with a 3 dB exchange rate, the formulas for allowed time "
            "and dose, and the simple rule for labelled protection. It is made for working adults, five days a week, "
            "with quiet the rest of the day."
        ),
    ),
    Source(
        "eu-2003",
        "Directive 2003/10/EC of the European Union",
        "https://eur-lex.europa.eu/eli/dir/2003/10/oj",
        marked(
            "action values at 80 and 85 dB(A) as a daily or weekly average and at 135 and 137 dB(C) peak; limit "
            "87 dB(A) and 140 dB(C) peak, counted with hearing protection on."
        ),
    ),
    Source(
        "uk-2005",
        "Control of Noise at Work Regulations 2005, United Kingdom",
        "https://www.legislation.gov.uk/uksi/2005/1643/contents",
        marked("the same values in UK law."),
    ),
    Source(
        "who-itu",
        "WHO–ITU, H.870, safe listening devices and systems",
        "https://www.itu.int/rec/T-REC-H.870",
        marked(
            "for leisure listening 80 dB(A) for 40 hours a week for adults, 75 dB(A) for 40 hours a week for children."
        ),
    ),
    Source(
        "hearing-journal-2006",
        "Research on percussionists reported in The Hearing Journal 59(6), 2006",
        "https://journals.lww.com/thehearingjournal/",
        marked(
            "nearly 400 percussionists were tested; drum rolls were measured up to 106 dB(A), single notes peak up to "
            "137 dB, and peaks over 120 dB are routine."
        ),
    ),
    Source(
        "hse-l108",
        "HSE, Controlling noise at work, L108, United Kingdom",
        "https://www.hse.gov.uk/pubns/books/l108.htm",
        marked(
            "4 dB come off any labelled protection for real use; the SNR is taken from a level in dB(C), is a guide, "
            "and is less apt where low sound is strong."
        ),
    ),
)

# NIOSH 98-126: the recommended limit and how time halves.
LIMIT_LEVEL = Figure(85, "dB(A)", "recommended limit over a working day", "niosh-1998")
LIMIT_HOURS = Figure(8, "h", "the working day the limit is averaged over", "niosh-1998")
LIMIT_DAYS = Figure(5, "days", "a week that the limit is made for", "niosh-1998")
LIMIT_MINUTES = Figure(480, "min", "the same working day in minutes", "niosh-1998")
EXCHANGE_RATE = Figure(3, "dB", "each such step up halves the allowed time", "niosh-1998")
FULL_DOSE = Figure(100, "%", "the dose at the recommended limit", "niosh-1998")

# The published table: level in dB(A), allowed minutes.
PUBLISHED_TIMES: tuple[tuple[float, float], ...] = (
    (85, 480),
    (88, 240),
    (91, 120),
    (94, 60),
    (97, 30),
    (100, 15),
    (103, 7.5),
)

# NIOSH's simple rule for a labelled NRR.
NRR_EARMUFFS = Figure(0.75, "×", "of the labelled NRR for earmuffs", "niosh-1998")
NRR_FOAM_PLUGS = Figure(0.5, "×", "of the labelled NRR for formable foam plugs", "niosh-1998")
NRR_OTHER_PLUGS = Figure(0.3, "×", "of the labelled NRR for other plugs", "niosh-1998")
NRR_LESS_FROM_A = Figure(7, "dB", "less, where the derated NRR is taken from a level in dB(A)", "niosh-1998")
NRR_OTHER_COUNTS_FROM = Figure(23.4, "dB", "NRR under which an other-type plug counts as nothing", "niosh-1998")

SNR_LESS = Figure(4, "dB", "off any labelled protection for real use", "hse-l108")

# Law at work: the same values in the European Union and the United Kingdom.
LOWER_ACTION_LEVEL = Figure(80, "dB(A)", "lower action value", "eu-2003")
UPPER_ACTION_LEVEL = Figure(85, "dB(A)", "upper action value", "eu-2003")
LOWER_ACTION_PEAK = Figure(135, "dB(C)", "lower action value, peak", "eu-2003")
UPPER_ACTION_PEAK = Figure(137, "dB(C)", "upper action value, peak", "eu-2003")
LEGAL_LIMIT_LEVEL = Figure(87, "dB(A)", "limit with protection on", "eu-2003")
LEGAL_LIMIT_PEAK = Figure(140, "dB(C)", "limit with protection on, peak", "eu-2003")

LEISURE_ADULTS = Figure(80, "dB(A)", "leisure listening, adults", "who-itu")
LEISURE_CHILDREN = Figure(75, "dB(A)", "leisure listening, children", "who-itu")
LEISURE_HOURS = Figure(40, "h", "leisure listening in a week", "who-itu")

ROLLS_UP_TO = Figure(106, "dB(A)", "drum rolls, measured up to", "hearing-journal-2006")
PEAKS_UP_TO = Figure(137, "dB", "single notes, peak up to", "hearing-journal-2006")
PEAKS_ROUTINE = Figure(120, "dB", "peaks over this are routine", "hearing-journal-2006")
PERCUSSIONISTS_TESTED = Figure(400, "percussionists", "tested, nearly", "hearing-journal-2006")
DRUMMERS_SURVEYED = Figure(831, "drummers", "in the survey", "azar-2021")

# What an exercise surface is taken to be until the tutor measures it.
PAD_LOW = Figure(75, "dB(A)", "practice pad, lower guess", OUR_SETTING)
PAD_HIGH = Figure(85, "dB(A)", "practice pad, higher guess", OUR_SETTING)
QUIET_KIT_LOW = Figure(80, "dB(A)", "low-volume heads and cymbals, lower guess", OUR_SETTING)
QUIET_KIT_HIGH = Figure(90, "dB(A)", "low-volume heads and cymbals, higher guess", OUR_SETTING)
ACOUSTIC_KIT_LOW = Figure(95, "dB(A)", "acoustic kit in a small room, lower guess", OUR_SETTING)
ACOUSTIC_KIT_HIGH = Figure(110, "dB(A)", "acoustic kit in a small room, higher guess", OUR_SETTING)

BREAK_EVERY = Figure(25, "min", "a short break at least this often", USUAL_ADVICE)
BREAK_AT_LATEST = Figure(30, "min", "the other end of the usual advice", USUAL_ADVICE)
HALF_A_DAY = Figure(50, "%", "share of a day's dose past which a plan is warned of", OUR_SETTING)

FIGURES: tuple[Figure, ...] = (
    LIMIT_LEVEL,
    LIMIT_HOURS,
    LIMIT_DAYS,
    LIMIT_MINUTES,
    EXCHANGE_RATE,
    FULL_DOSE,
    NRR_EARMUFFS,
    NRR_FOAM_PLUGS,
    NRR_OTHER_PLUGS,
    NRR_LESS_FROM_A,
    NRR_OTHER_COUNTS_FROM,
    SNR_LESS,
    LOWER_ACTION_LEVEL,
    UPPER_ACTION_LEVEL,
    LOWER_ACTION_PEAK,
    UPPER_ACTION_PEAK,
    LEGAL_LIMIT_LEVEL,
    LEGAL_LIMIT_PEAK,
    LEISURE_ADULTS,
    LEISURE_CHILDREN,
    LEISURE_HOURS,
    ROLLS_UP_TO,
    PEAKS_UP_TO,
    PEAKS_ROUTINE,
    PERCUSSIONISTS_TESTED,
    DRUMMERS_SURVEYED,
    PAD_LOW,
    PAD_HIGH,
    QUIET_KIT_LOW,
    QUIET_KIT_HIGH,
    ACOUSTIC_KIT_LOW,
    ACOUSTIC_KIT_HIGH,
    BREAK_EVERY,
    BREAK_AT_LATEST,
    HALF_A_DAY,
)
