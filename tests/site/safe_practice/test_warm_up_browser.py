"""The warm-up timer in a real browser, with a clock that the test turns."""

import pytest
from playwright.sync_api import Page, expect

from tests.accessibility import WCAG, violations
from wristwork.course.safety import warm_up

pytestmark = pytest.mark.browser


@pytest.fixture
def timer(page, site) -> Page:
    """The warm-up page with a clock that the test turns, and a note of every tone and wake lock."""
    page.clock.install()
    page.add_init_script(
        """window.wwTones = []; window.wwLocks = [];
        window.OscillatorNode = class extends OscillatorNode {
            constructor(audio, options) { super(audio, options); window.wwTones.push(options.frequency); }
        };
        window.wwGains = [];
        const ramp = AudioParam.prototype.linearRampToValueAtTime;
        AudioParam.prototype.linearRampToValueAtTime = function (value, at) {
            window.wwGains.push(value); return ramp.call(this, value, at);
        };
        navigator.wakeLock.request = async () => {
            const lock = { held: true, release: async () => { lock.held = false; } };
            window.wwLocks.push(lock); return lock;
        };"""
    )
    page.goto(f"{site}/warm-up-default.html")
    return page


def start(page, routine):
    page.get_by_role("button", name=f"{routine.title}: {routine.minutes} minutes").click()
    return page.get_by_role("dialog", name="Warm-up timer")


@pytest.mark.parametrize("routine", warm_up.ROUTINES, ids=lambda routine: routine.key)
def test_the_timer_goes_through_every_step(timer, routine):
    dialog = start(timer, routine)
    for number, (step, seconds) in enumerate(routine.timed_steps, start=1):
        where = f"Step {number} of {len(routine.timed_steps)}"
        expect(dialog.get_by_role("heading")).to_have_text(step.name)
        expect(dialog.locator(".ww-where")).to_have_text(where)
        expect(dialog.locator("[aria-live=polite]")).to_contain_text(f"{where}: {step.name}")
        expect(dialog.locator(".ww-do")).to_have_text(step.do)
        timer.clock.run_for(seconds * 1000)
    expect(dialog.get_by_role("heading")).to_have_text("Done")
    expect(dialog.locator(".ww-face")).to_have_text("0:00")
    # One tone at each change, two at the end.
    assert len(timer.evaluate("window.wwTones")) == len(routine.timed_steps) + 2


def test_the_sound_is_quiet(timer):
    start(timer, warm_up.SHORT)
    gains = timer.evaluate("window.wwGains")
    assert gains
    assert max(gains) <= 0.1


def test_the_sound_can_be_turned_off_for_good(timer):
    sound = timer.get_by_label("Quiet sound at each change")
    expect(sound).to_be_checked()
    sound.uncheck()
    start(timer, warm_up.SHORT)
    assert timer.evaluate("window.wwTones") == []
    timer.reload()
    expect(timer.get_by_label("Quiet sound at each change")).not_to_be_checked()


def test_pause_holds_the_time_and_skip_goes_on(timer):
    dialog = start(timer, warm_up.SHORT)
    timer.clock.run_for(20_000)
    expect(dialog.locator(".ww-face")).to_have_text("0:40")
    dialog.get_by_role("button", name="Pause").click()
    timer.clock.run_for(90_000)
    expect(dialog.locator(".ww-face")).to_have_text("0:40")
    dialog.get_by_role("button", name="Go on").click()
    timer.clock.run_for(10_000)
    expect(dialog.locator(".ww-face")).to_have_text("0:30")
    dialog.get_by_role("button", name="Skip").click()
    expect(dialog.get_by_role("heading")).to_have_text(warm_up.LOW_SINGLES.name)
    expect(dialog.locator(".ww-face")).to_have_text("1:00")
    dialog.get_by_role("button", name="Back").click()
    expect(dialog.get_by_role("heading")).to_have_text(warm_up.MOVE.name)
    expect(dialog.get_by_role("button", name="Back")).to_be_disabled()


def test_a_paused_timer_stays_paused_when_skipped(timer):
    dialog = start(timer, warm_up.SHORT)
    dialog.get_by_role("button", name="Pause").click()
    dialog.get_by_role("button", name="Skip").click()
    timer.clock.run_for(30_000)
    expect(dialog.locator(".ww-face")).to_have_text("1:00")
    dialog.get_by_role("button", name="Go on").click()
    timer.clock.run_for(30_000)
    expect(dialog.locator(".ww-face")).to_have_text("0:30")


def test_a_sleeping_tab_catches_up(timer):
    dialog = start(timer, warm_up.SHORT)
    # No tick for two and a half minutes, then one: the third step is half over.
    timer.clock.fast_forward(150_000)
    timer.clock.run_for(300)
    expect(dialog.locator(".ww-where")).to_have_text("Step 3 of 5")
    expect(dialog.locator(".ww-face")).to_have_text("0:30")


def test_after_the_end_it_can_begin_again(timer):
    dialog = start(timer, warm_up.EASE_OFF)
    dialog.get_by_role("button", name="Skip").click()
    dialog.get_by_role("button", name="Skip").click()
    expect(dialog.get_by_role("button", name="Skip")).to_be_disabled()
    dialog.get_by_role("button", name="Once more").click()
    expect(dialog.locator(".ww-where")).to_have_text("Step 1 of 2")
    timer.clock.run_for(15_000)
    expect(dialog.locator(".ww-face")).to_have_text("0:45")


def test_the_screen_stays_on_only_while_the_timer_is_open(timer):
    dialog = start(timer, warm_up.SHORT)
    assert timer.evaluate("window.wwLocks.map((lock) => lock.held)") == [True]
    timer.keyboard.press("Escape")
    expect(dialog).to_be_hidden()
    assert timer.evaluate("window.wwLocks.map((lock) => lock.held)") == [False]


def test_the_timer_works_where_there_is_no_wake_lock(timer):
    timer.evaluate("() => { navigator.wakeLock.request = async () => { throw new Error('refused'); }; }")
    dialog = start(timer, warm_up.SHORT)
    expect(dialog.get_by_role("heading")).to_have_text(warm_up.MOVE.name)


@pytest.mark.parametrize(("width", "height"), [(320, 640), (390, 800), (800, 390), (1280, 800)])
def test_the_timer_can_be_read_from_two_metres(timer, width, height):
    timer.set_viewport_size({"width": width, "height": height})
    dialog = start(timer, warm_up.FULL)
    face, name = dialog.locator(".ww-face"), dialog.get_by_role("heading")
    size = "(element) => parseFloat(getComputedStyle(element).fontSize)"
    # An angle of 20 minutes of arc at two metres is 12 mm, about 45 CSS pixels; the clock has twice that.
    assert face.evaluate(size) >= 90
    assert name.evaluate(size) >= 28
    for element in (face, name, dialog.get_by_role("button", name="Pause")):
        box = element.bounding_box()
        assert min(box["x"], box["y"]) >= 0
        assert box["x"] + box["width"] <= width
        assert box["y"] + box["height"] <= height


def test_the_open_timer_is_accessible(timer):
    start(timer, warm_up.SHORT)
    assert violations(timer, only=WCAG) == []
