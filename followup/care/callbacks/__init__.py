"""Callbacks: claimed by one person, tried, decided, done; moved up when nobody does.

A decision makes a task, and the callback stays on the list until somebody has spoken to the patient or carer and what
was decided is done. Only then is it settled.
"""
