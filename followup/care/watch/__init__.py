"""What the rules find, and what watches the watch."""
