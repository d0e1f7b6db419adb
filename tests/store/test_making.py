import ast
import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

import wristwork.sound
from wristwork.languages.catalogues import language
from wristwork.languages.say import speaking
from wristwork.store import making
from wristwork.store.making import PAGE_MAKER, SOUND_MAKER, SOUND_WORDS_MAKER, Maker, digest


@pytest.fixture(autouse=True)
def _afresh():
    making._fingerprint.cache_clear()
    yield
    making._fingerprint.cache_clear()


def test_other_parts_make_another_name() -> None:
    assert len({digest("a", "b"), digest("ab"), digest("a", "b", ""), digest("b", "a"), digest("\udcff")}) == 5


@pytest.mark.parametrize("maker", [PAGE_MAKER, SOUND_MAKER])
@pytest.mark.parametrize("library", ["jinja2", "typst", "lameenc", "numpy", "scipy", "soundfile"])
def test_another_version_of_a_library_makes_another_name(monkeypatch, maker: Maker, library: str) -> None:
    before = digest("a", by=maker)
    making._fingerprint.cache_clear()
    real = making.version
    monkeypatch.setattr(making, "version", lambda name: f"{real(name)}+other" if name == library else real(name))
    assert (digest("a", by=maker) != before) is (library in maker.libraries)


def test_every_library_that_makes_something_has_a_version() -> None:
    assert all(making._version(name) != "none" for name in (*PAGE_MAKER.libraries, *SOUND_MAKER.libraries))
    assert making._version("no-such-thing") == "none"


def test_other_code_makes_another_name(tmp_path: Path, monkeypatch) -> None:
    names = []
    for content in ("one", "two"):
        (tmp_path / "sound").mkdir(exist_ok=True)
        (tmp_path / "sound" / "code.py").write_text(content)
        monkeypatch.setattr(making.wristwork, "__file__", str(tmp_path / "__init__.py"))
        making._fingerprint.cache_clear()
        names.append(digest("a", by=Maker(("sound",), ())))
    assert len({*names}) == 2


def test_sound_is_named_by_all_code_that_decides_how_it_sounds() -> None:
    """What the code of sound imports is its own, goes in as strokes, or is among the code that its maker names."""
    home = Path(wristwork.sound.__file__).parents[1]
    imported = {
        node.module
        for source in (home / "sound").rglob("*.py")
        for node in ast.walk(ast.parse(source.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("wristwork.")
    }
    named = {f"wristwork.{name.removesuffix('.py').replace('/', '.')}" for name in SOUND_MAKER.code}
    outside = {module for module in imported if not module.startswith("wristwork.sound")}
    # Strokes are among what goes in; the others only say what is wrong.
    saying = {"wristwork.wording", "wristwork.page.problem", "wristwork.languages.numbers", "wristwork.languages.say"}
    assert outside - named <= {"wristwork.technique.strokes", *saying}


def test_a_name_is_the_digest_of_all_that_goes_in(tmp_path: Path, monkeypatch) -> None:
    """Worked out once more here, so that nothing of it can be left out unseen."""
    for name, content in (("sound/a.py", "one"), ("sound/deep/b.typ", "two"), ("c.html", "three"), ("d.ttf", "four")):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(content)
    for name in ("sound/notes.txt", "sound/style.css", "elsewhere.py"):
        (tmp_path / name).write_text("not code, or nobody's")
    monkeypatch.setattr(making.wristwork, "__file__", str(tmp_path / "__init__.py"))
    monkeypatch.setattr(making, "version", {"first": "1.0", "second": "2.5"}.__getitem__)
    inside = hashlib.sha256(b"first 1.0\nsecond 2.5")
    for name, content in (("c.html", "three"), ("d.ttf", "four"), ("sound/a.py", "one"), ("sound/deep/b.typ", "two")):
        inside.update(f"{name}\0{content}\0".encode())
    whole = hashlib.sha256(inside.hexdigest().encode())
    whole.update("5:drums5:ä\udcff<>&".encode("utf-8", "surrogatepass"))
    maker = Maker(("sound", "d.ttf", "c.html"), ("first", "second"), speaks=False)
    assert digest("drums", "ä\udcff<>&", by=maker) == whole.hexdigest()[:40]
    spoken = hashlib.sha256(inside.hexdigest().encode())
    own = language("de", [("Weeks", "Runden")], "1 ta te ta")
    spoken.update(f"de {own.sum} 1 ta te ta".encode())
    spoken.update(b"5:drums")
    with speaking(own):
        assert digest("drums", by=replace(maker, speaks=True)) == spoken.hexdigest()[:40]


def test_pages_are_named_by_all_code_and_sound_by_its_own(monkeypatch, tmp_path: Path) -> None:
    monkeypatch.setattr(making.wristwork, "__file__", str(tmp_path / "__init__.py"))
    monkeypatch.setattr(making, "version", lambda _: "1")

    def names() -> tuple[str, str]:
        making._fingerprint.cache_clear()
        return digest("a"), digest("a", by=SOUND_MAKER)

    for name in ("sound/x.py", "pattern/drums.py", "pattern/model.py", "pattern/pace.py", "site/y.py"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("before")
    for name in ("sound/x.py", "pattern/drums.py", "pattern/model.py", "pattern/pace.py", "site/y.py"):
        page, sound = names()
        (tmp_path / name).write_text("after")
        assert names()[0] != page, name
        assert (names()[1] != sound) is (name != "site/y.py"), name


def test_code_is_read_once(tmp_path: Path, monkeypatch) -> None:
    name = digest("a")
    monkeypatch.setattr(making, "_sources", None)
    assert digest("a") == name


def test_what_is_told_of_sounds_is_named_by_the_language_and_sounds_are_not() -> None:
    plain = digest("a", by=SOUND_MAKER), digest("a", by=SOUND_WORDS_MAKER)
    with speaking(language("de")):
        assert digest("a", by=SOUND_MAKER) == plain[0]
        assert digest("a", by=SOUND_WORDS_MAKER) != plain[1]
