"""What in an operation note does not go together: every case that is asked, and its nearest that is not.

Strengths that do not grow: RCO18 (20, 16 and 14 %). Limits: common practice, no source.
"""

from typing import Any

import pytest

from followup.clinical import second_thoughts
from followup.clinical.errors import ClinicalError


@pytest.mark.parametrize(
    ("note", "asked"),
    [
        (("sf6", 20, 90, "phakic", ["vitrectomy"]), []),
        (("sf6", 90, 90), ["grow to about", "undiluted"]),
        (("sf6", 90, 50), ["undiluted"]),
        (("sf6", 49, 50), []),
        (("sf6", 50, 50), ["undiluted"]),
        (("c3f8", 100, 95), ["grow to about", "undiluted"]),
        (("c3f8", 20, 95), ["grow to about"]),
        (("c3f8", 14, 95), []),
        (("c3f8", 7, 95), []),
        (("c3f8", 6, 95), ["weak"]),
        (("sf6", 2, 95), ["weak"]),
        (("sf6", 20, 49), ["not more"]),
        (("sf6", 20, 50), []),
        (("air", 100, 90), []),
        (("air", 0, 90), []),
        (("air", 20, 90), ["Air has no concentration"]),
        (("silicone-oil", 0, 90), []),
        (("silicone-oil", 20, 90), ["no concentration"]),
        (("silicone-oil", 0, 20), ["not more"]),
        (("heavy-silicone-oil", 100, 90), ["no concentration"]),
        (("none", 0, 0), []),
        (("none", 20, 0), ["“Nothing” has no concentration"]),
        (("none", 0, 20), []),
        (("none", 0, 0, "phakic", ["fluid-air-exchange"]), ["nothing is given as left"]),
        (("air", 100, 90, "phakic", ["fluid-air-exchange"]), []),
        (("sf6", 20, 90, "phakic", ["cataract"]), ["given as phakic"]),
        (("sf6", 20, 90, "unknown", ["cataract"]), ["given as unknown"]),
        (("sf6", 20, 90, "pseudophakic", ["cataract"]), []),
        (("sf6", 20, 90, "aphakic", ["cataract"]), []),
        (("sf6", 20, 90, "unknown", []), []),
    ],
)
def test_what_does_not_go_together_is_asked(note: tuple[Any, ...], asked: list[str]) -> None:
    found = second_thoughts.questions(*note)
    assert len(found) == len(asked)
    for question, words in zip(found, asked, strict=True):
        assert words in question
        assert "?" in question


def test_what_cannot_be_is_refused_and_not_asked() -> None:
    with pytest.raises(ClinicalError):
        second_thoughts.questions("sf6", 140, 90)
