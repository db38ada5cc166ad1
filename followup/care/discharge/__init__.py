"""Discharge: from the note of an operation to a plan, and its record."""
