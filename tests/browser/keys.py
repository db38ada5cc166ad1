"""Counts what a person presses, and estimates how long that takes a practised user.

Keystroke-level model: Card, Moran, Newell, Communications of the ACM 1980;23:396-410. Its operators, from memory:
a key by an average typist 0.28 s, pointing 1.1 s, a press of the button 0.1 s, hands between mouse and keys 0.4 s,
thinking before each unit of work 1.35 s.
"""

from dataclasses import dataclass

from playwright.sync_api import Locator, Page

KEY, POINT, BUTTON, HANDS, THINK = 0.28, 1.1, 0.1, 0.4, 1.35


@dataclass
class Person:
    """Works a page with real keys and clicks."""

    page: Page
    keys: int = 0
    clicks: int = 0
    thoughts: int = 0

    def type(self, text: str) -> None:
        """Type into whatever has the focus: one thought, then the keys."""
        self.page.keyboard.type(text)
        self.keys += len(text)
        self.thoughts += 1

    def press(self, key: str, times: int = 1) -> None:
        for _ in range(times):
            self.page.keyboard.press(key)
        self.keys += times

    def click(self, target: Locator) -> None:
        target.click()
        self.clicks += 1
        self.thoughts += 1

    @property
    def seconds(self) -> float:
        """The model's estimate, the machine's own time not counted."""
        return self.keys * KEY + self.clicks * (POINT + BUTTON + 2 * HANDS) + self.thoughts * THINK
