"""Templates are compiled once on a machine, not by each application that a test or its server makes."""

from flask import Flask
from jinja2 import FileSystemBytecodeCache


def compile_templates_once() -> None:
    Flask.jinja_options = {"bytecode_cache": FileSystemBytecodeCache()}
