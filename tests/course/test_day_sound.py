"""A session's share of a day's sound, against calculation by hand."""

import pytest

from wristwork.course.safety.day_sound import MODEST_PROTECTION, SoundShare, sound_shares
from wristwork.course.safety.exposure import ACOUSTIC_KIT, PAD, QUIET_KIT, UNPROTECTED, read_protection


def test_shares_of_a_session_of_twenty_minutes() -> None:
    shares = sound_shares(20, UNPROTECTED)
    assert [share.surface for share in shares] == [PAD, QUIET_KIT, ACOUSTIC_KIT, ACOUSTIC_KIT]
    # 85, 90 and 110 dB(A), the last also with 10 dB less; 480 minutes are allowed at 85, half as many for 3 dB more.
    by_hand = [100 * 20 / (480 / 2 ** ((level - 85) / 3)) for level in (85, 90, 110, 100)]
    assert [share.percent for share in shares] == pytest.approx(by_hand)
    assert [share.is_protected for share in shares] == [False, False, False, True]
    assert shares[3].protection is MODEST_PROTECTION


def test_the_protection_that_a_week_states_is_counted_with() -> None:
    # SNR 25 counts for 4 dB less: 110 - 21 = 89 dB(A).
    *_, worn = sound_shares(25, read_protection("SNR 25"))
    assert worn.percent == pytest.approx(100 * 25 / (480 / 2 ** (4 / 3)))
    assert worn.words == "14 %"


@pytest.mark.parametrize(
    ("percent", "words", "is_too_much"),
    [
        (0.0, "under 1 %", False),
        (0.99, "under 1 %", False),
        (1.0, "1 %", False),
        (12.01, "13 %", False),
        (100.0, "100 %", False),
        (133.4, "134 %, more than a day’s", True),
        (1344.0, "13.5 days’ worth", True),
        (1400.0, "14 days’ worth", True),
    ],
)
def test_a_share_in_words_is_never_rounded_down(percent: float, words: str, is_too_much: bool) -> None:
    share = SoundShare(PAD, UNPROTECTED, percent)
    assert (share.words, share.is_too_much) == (words, is_too_much)
