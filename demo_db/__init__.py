"""The invented clinic: `clinic.toml`, `patterns.toml` and `eyes.toml` say what it holds, `build` makes it a database."""
