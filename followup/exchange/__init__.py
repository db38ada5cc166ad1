"""To and from the outside: course files, QR codes, calendars."""
