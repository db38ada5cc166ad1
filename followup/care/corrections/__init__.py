"""Whatever was entered, put right: entries, particulars, the note of an operation."""
