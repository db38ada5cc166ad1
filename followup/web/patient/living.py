"""Living with it: short general advice for the weeks after surgery. Each topic has its source, or is marked common practice."""

from collections.abc import Callable
from dataclasses import dataclass

from followup.care.errors import translatable as medical

COMMON_PRACTICE = ""


@dataclass(frozen=True, slots=True)
class Topic:
    """A heading, what there is to know in short sentences, and the `source` in full; empty: common practice, no source."""

    title: str
    says: tuple[str, ...]
    source: str


LEEDS = "Leeds Teaching Hospitals NHS Trust. Vitrectomy post-operative advice (web page for patients, read 2026)."
PLYMOUTH = "University Hospitals Plymouth NHS Trust. Vitrectomy, C-414 v2, November 2020."
COCHRANE = "Cochrane review CD008228.pub3. Face-down positioning or posturing after macular hole surgery, 2023."
DROPS_AND_DRIVING = (
    "UK government. People with diabetes who drive to appointments and the use of eye drops, updated 27 September 2024."
)
NHS_HOLE = "NHS website. Macular hole, reviewed 21 December 2018 (read second-hand)."

TOPICS = (
    Topic(
        medical("Sleep"),
        (
            medical(
                "Sleep as your plan says. While gas is in the eye, never sleep flat on your back. With oil, ask the clinic."
            ),
            medical("A pillow behind your back keeps you from rolling over."),
        ),
        NHS_HOLE,
    ),
    Topic(
        medical("Neck and back"),
        (
            medical("Let your head rest on folded arms or a rolled towel. Do not let it hang."),
            medical("In each break stand up, walk a little and roll your shoulders."),
            medical("Put something soft under your elbows. Tell us if your fingers get numb and stay so."),
        ),
        COCHRANE,
    ),
    Topic(
        medical("Breath"),
        (
            medical("Keep your nose and mouth free. If it is hard to breathe in this position, sit up and call us."),
            medical("Move your feet often when you lie or sit for long."),
            medical("Chest pain, or no breath at rest: call the emergency number at once."),
        ),
        COMMON_PRACTICE,
    ),
    Topic(
        medical("Wash"),
        (
            medical("You may shower and bathe. Keep water and soap out of the eye. Let somebody help you wash your hair."),
            medical("Wipe the closed lids with a clean wet pad, from the nose out. Use water that was boiled and is cool."),
            medical("Do not swim until the clinic says that you may."),
        ),
        LEEDS,
    ),
    Topic(
        medical("Drive"),
        (
            medical(
                "Do not drive until the clinic says that you may. With one eye it is hard to tell how far off things are."
            ),
            medical("Drops that make your pupil wide blur your sight for about four hours."),
        ),
        f"{LEEDS} {DROPS_AND_DRIVING}",
    ),
    Topic(
        medical("Shield"),
        (
            medical("Wear the shield when you sleep, for as long as the clinic said. Wash it with warm water and soap."),
            medical("Do not rub or press the eye."),
        ),
        LEEDS,
    ),
    Topic(
        medical("Stairs and hot drinks"),
        (medical("Hold the rail on stairs. Put the cup in the sink before you pour hot water."),),
        PLYMOUTH,
    ),
    Topic(
        medical("Sugar"),
        (
            medical(
                "If you have diabetes: steroid drops and little movement can raise your sugar. Ask your diabetes team how often to test."
            ),
            medical("Do not change a dose on your own."),
        ),
        COMMON_PRACTICE,
    ),
)


def topics(translate: Callable[[str], str]) -> list[Topic]:
    """Every topic in the reader's language; sources stay as they are."""
    return [Topic(translate(t.title), tuple(map(translate, t.says)), t.source) for t in TOPICS]
