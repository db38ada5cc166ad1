"""Messages to patients and staff: which, to whom, when, and how they fared."""
