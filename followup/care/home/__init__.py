"""The phone at home: its enrolment, what it shows, what it sends."""
