"""The day: who is due, who is missing, and the sheet for a day without a signal."""
