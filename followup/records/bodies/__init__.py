"""What entries say: a frozen, typed body for each kind, parsed once where it is read or received."""
