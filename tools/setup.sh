# Sourced by ./run and ./test: packages by name, and the release build.
# Debian 12 names; on another system install their like and run again with BANKWRIGHT_SKIP_PACKAGES=1.

build_packages="g++ cmake ninja-build pkg-config libboost-dev libexpected-dev libfmt-dev libcli11-dev libtomlplusplus-dev libeigen3-dev
    nlohmann-json3-dev libcairo2-dev libpango1.0-dev libocct-data-exchange-dev libtbb-dev fonts-liberation fonts-dejavu-core
    zlib1g-dev libsoci-dev libsqlite3-dev"
# the page is built by npm; a Node that is there already, with its own npm, is good enough (18 or later)
command -v node >/dev/null 2>&1 || build_packages="$build_packages nodejs"
command -v npm >/dev/null 2>&1 || build_packages="$build_packages npm"
test_packages="libgtest-dev libgmock-dev libbenchmark-dev poppler-utils python3 chromium"

say() { printf '%s\n' "$*" >&2; }

# install_packages NAME...: installs what is missing, or says plainly what to do where that is not allowed.
install_packages() {
    [ -n "${BANKWRIGHT_SKIP_PACKAGES:-}" ] && return 0
    if ! command -v dpkg-query >/dev/null 2>&1; then
        say "This is not a Debian system. Install the like of: $*"
        say "then run again with BANKWRIGHT_SKIP_PACKAGES=1."
        exit 1
    fi
    missing=""
    for package in "$@"; do
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing="$missing $package"
    done
    [ -z "$missing" ] && return 0
    as_root=""
    if [ "$(id -u)" != 0 ]; then
        if command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
            as_root=sudo
        else
            say "These packages are missing and you may not install them:$missing"
            say "Ask whoever may to run:  apt-get update && apt-get install --no-install-recommends$missing"
            exit 1
        fi
    fi
    say "Installing:$missing"
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -qq
    # shellcheck disable=SC2086
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

# build TARGET...: configures once, then builds what changed; the whole log only when it fails.
build() {
    mkdir -p build
    if ! { cmake --preset release "$@" && cmake --build --preset release; } >build/log.txt 2>&1; then
        tail -n 60 build/log.txt >&2
        say "The build failed; the whole log is in build/log.txt."
        exit 1
    fi
}

# install_readers: what the tests fetch by npm, as each package-lock.json pins it: independent readers of the model files, and
# what drives a browser before the page.
install_readers() {
    for folder in tests/readers tests/page; do
        if ! cmp -s $folder/package-lock.json $folder/node_modules/.installed; then
            say "Installing what $folder needs."
            if ! (cd $folder && npm ci --no-audit --no-fund --loglevel=error >&2); then
                say "npm could not install what the tests need: see above."
                exit 1
            fi
            cp $folder/package-lock.json $folder/node_modules/.installed
        fi
    done
}
