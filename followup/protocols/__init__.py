"""What a clinic may change: warning rules, review visits, posture plans. Drafts ship as TOML; a clinic signs its own."""
