"""An eye and its patient, read: what was entered, the facts in it, and one course of them."""
