"""The end of follow-up and its taking up; two records of one person."""
