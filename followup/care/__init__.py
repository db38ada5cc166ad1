"""What people do: discharge, receive, visit, raise, call back, enrol, sign. One transaction each, with its audit entry."""
