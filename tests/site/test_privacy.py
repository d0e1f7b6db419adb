"""No note on a student gets onto the site, whatever brings it there."""

from __future__ import annotations

import pytest
from mkdocs.exceptions import Abort

from tests.site.courses import Course, contents

NOTE = "2026-09-14 asked Why <does> it & my wrist hurt?"
JO = f"name: Jo\n\n2026-09-14 short\n{NOTE}\n"
# What another author's plugin might do.
HOOK = """\
from html import escape
from pathlib import Path

def on_page_content(html, page, config, files):
    return html + escape(Path(config.config_file_path).with_name("students").joinpath("jo.md").read_text())
"""


def test_a_build_stops_where_a_note_came_in_by_another_way_and_spares_the_site(
    course: Course, caplog: pytest.LogCaptureFixture
) -> None:
    course.write("students/jo.md", JO)
    # A day that a page says is no note.
    course.write("docs/index.md", "# Home\n\nOn 2026-09-14 short days begin, and 2026-09-14 asked nothing of us.\n")
    course.build()
    assert "2026-09-14 asked nothing" in (course.site / "index.html").read_text(encoding="utf-8")
    before = contents(course.site)
    course.write("hook.py", HOOK)
    course.settings["hooks"] = ["hook.py"]
    with pytest.raises(Abort):
        course.build()
    assert "weeks/week-01/index.html: on the site, holds a note on a student" in caplog.text
    assert contents(course.site) == before
