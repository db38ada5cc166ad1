"""What the clinic learns from its own eyes, and the protocols that it signs."""
