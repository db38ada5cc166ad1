"""Follow-up of eyes that left the operating theatre with gas, air or oil inside."""

__version__ = "0.1.0"
