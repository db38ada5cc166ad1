"""Several clinics on one server: a folder with a settings file and a database for each, found by host name.

The serving process alone decides who is served (`porter`), and writes it down where the others read it (`register`): the
workers, which open a clinic when it is asked for (`doors`), and the clock, which keeps the time of each (`clocks`).
"""
