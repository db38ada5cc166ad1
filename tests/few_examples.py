"""A pytest plugin for `tests.mutate_clinical`: few examples of each law, always the same ones."""

from hypothesis import settings

settings.register_profile("few", max_examples=15, deadline=None, derandomize=True, database=None)
settings.load_profile("few")
