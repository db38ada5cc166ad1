"""Sequences of whatever can go wrong between a device and the clinic, in a real browser before a real server.

After each, what was tapped is held against the clinic's database: nothing lost, nothing doubled, nothing at a wrong time.
"""
