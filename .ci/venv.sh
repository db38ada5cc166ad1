# Sourced by demo_db/run, tests/run and tests/check: sets up what they need, only what is missing, and says plainly what is.

# Many processes begin in what sources this: the first leaves to the others what it compiled, also where the machine says otherwise.
unset PYTHONDONTWRITEBYTECODE

say() { printf '%s\n' "$*" >&2; }

need_python() {
    command -v python3 >/dev/null || { say "Python 3.11 or newer is needed: install python3 and run this line again."; exit 1; }
    python3 -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { say "Python 3.11 or newer is needed, this is $(python3 --version)."; exit 1; }
}

# On Debian as root, installs packages; elsewhere says which are missing.
need_packages() {
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
        DEBIAN_FRONTEND=noninteractive apt-get update -qq >/dev/null
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >/dev/null
    else
        say "Missing: $*. Install them (on Debian: apt-get install $*) and run this line again."
        exit 1
    fi
}

# filled FOLDER FILE...: whether FOLDER was filled from these files as they stand; note_filled says that it is.
filled() { [ "$(cat "$1/.filled-from" 2>/dev/null)" = "$(cat "${@:2}" | cksum)" ]; }
note_filled() { cat "${@:2}" | cksum > "$1/.filled-from"; }

# make_venv WHAT: a virtual environment with the project ('.' or '.[test]') installed.
make_venv() {
    need_python
    if [ ! -x .venv/bin/python ]; then
        python3 -c 'import ensurepip, venv' 2>/dev/null || need_packages python3-venv
        python3 -m venv .venv
    fi
    local holds=.venv/"$1"
    filled .venv/'.[test]' pyproject.toml || filled "$holds" pyproject.toml && return
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --editable "$1"
    mkdir -p "$holds"
    note_filled "$holds" pyproject.toml
}

# The linters of the pages, in .ci/node_modules.
make_node_tools() {
    command -v node >/dev/null || need_packages nodejs
    command -v npm >/dev/null || need_packages npm
    filled .ci/node_modules .ci/package.json .ci/package-lock.json && return
    npm ci --prefix .ci --silent
    note_filled .ci/node_modules .ci/package.json .ci/package-lock.json
}
