"""Using the sound-day form as a student would."""


def fill(page, number, *, surface=None, level=None, minutes=None, kind=None, label=None, weighting=None):
    """Fills in one part of the day as a student would."""
    part = page.get_by_role("group", name=f"Part {number}")
    if surface:
        part.get_by_label("What you play or hear").select_option(surface)
    if level is not None:
        part.get_by_label("Level in dB").fill(str(level))
    if weighting:
        part.get_by_label("Measured as").select_option(weighting)
    if minutes is not None:
        part.get_by_label("Minutes").fill(str(minutes))
    if kind:
        part.get_by_label("Hearing protection").select_option(kind)
    if label is not None:
        part.get_by_label("Number on its label").fill(str(label))
    return part


def work_out(page):
    page.get_by_role("button", name="Work it out").click()
    summary = page.locator(".ww-summary")
    return float(summary.get_attribute("data-ww-dose")), float(summary.get_attribute("data-ww-level"))
