"""What takes long to make, made once for all tests and their servers."""

from collections.abc import Callable
from itertools import count
from typing import Any

from flask import Flask
from jinja2 import FileSystemBytecodeCache
from werkzeug.routing import Rule

from followup.care.home import sealing


def compile_templates_once() -> None:
    """On a machine, not by each application that a test or its server makes."""
    Flask.jinja_options = {"bytecode_cache": FileSystemBytecodeCache()}


def compile_routes_once() -> None:
    """In a process: what builds an address is compiled from its rule alone, and there are hundreds of them."""
    compiled: dict[Any, Callable[..., tuple[str, str]]] = {}
    compile_one = Rule._compile_builder

    def compile_once(self: Rule, append_unknown: bool = True) -> Callable[..., tuple[str, str]]:
        rule = (self.rule, self.merge_slashes, self.subdomain, self.host, repr(self.defaults), append_unknown)
        if rule not in compiled:
            compiled[rule] = compile_one(self, append_unknown)
        return compiled[rule]

    Rule._compile_builder = compile_once  # type: ignore[method-assign]


def make_few_sealing_keys(few: int) -> None:
    """Every clinic takes one of a few in turn, so that two made one after the other differ where there are two."""
    make, made, asked = sealing.new_key, [], count()

    def new_key() -> str:
        turn = next(asked) % few
        if turn == len(made):
            made.append(make())
        return made[turn]

    sealing.new_key = new_key
