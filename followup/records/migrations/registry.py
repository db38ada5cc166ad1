"""Where every step of the schema is registered, in order."""

from sqlite_utils.migrations import Migrations

steps = Migrations("followup")
