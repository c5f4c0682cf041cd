# Sourced by sample_project/run.sh and tests/run.sh: `set_up run` or `set_up tests`.
#
# Installs what is missing on Debian 12, Debian 13 or Ubuntu, makes .venv/ and the QGIS profile
# .qgis/ inside the checkout, and exports the environment in which QGIS and the plugin run. What is
# there already is left alone, so that a second run takes a second or two.
#
# Nothing outside the checkout is written except by apt. Shown to the caller afterwards:
#   ROOT         the checkout
#   PYTHON       the Python of .venv
#   and the exported variables of `export_environment`.

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
VENV=$ROOT/.venv
PROFILE=$ROOT/.qgis
PYTHON=$VENV/bin/python
LOG=$PROFILE/setup.log
OS_RELEASE=/etc/os-release
QGIS_WANTED=3.40
SHAPELY_BUILT=2.1.2
NUMPY_TYPES=1.24.4

# python3-gdal and numpy carry QGIS's own Processing plugin; a font is needed to draw a map.
RUN_PACKAGES=(ca-certificates python3-venv python3-numpy python3-gdal fonts-dejavu-core)
QGIS_PACKAGES=(qgis python3-qgis qgis-providers)
BUILD_PACKAGES=(libgeos-dev python3-dev g++)
# Reference libraries and tools of the tests; qttools makes the translations.
TEST_PACKAGES=(gdal-bin python3-scipy python3-matplotlib python3-lxml qttools5-dev-tools libgl1 libxrender1)

say() { printf '== %s\n' "$*"; }

stop() {
    printf 'Undercourse set-up: %s\n' "$*" >&2
    exit 1
}

set_up() { # run | tests
    local purpose=$1
    mkdir -p "$PROFILE" 2>/dev/null && [ -w "$PROFILE" ] ||
        stop "this user may not write to $ROOT; copy the checkout to a folder of your own."
    exec 9>"$PROFILE/lock"
    command -v flock >/dev/null && flock 9 # two runs at once would install over each other
    local stamp=$PROFILE/ready-$purpose wanted
    wanted=$(fingerprint)
    if [ "$(cat "$stamp" 2>/dev/null)" != "$wanted" ] || ! still_there; then
        rm -f "$PROFILE"/ready-*
        : >"$LOG"
        install_system_packages "$purpose"
        make_venv
        provide_shapely
        [ "$purpose" = run ] || install_test_tools
        link_profile
        export_environment
        check_plugin_environment
        printf '%s\n' "$wanted" >"$PROFILE/ready-run"
        printf '%s\n' "$wanted" >"$stamp"
        say "set-up is ready"
    else
        link_profile
        export_environment
    fi
    exec 9>&-
}

# What the set-up depends on: when any of it changes, everything is looked at again.
fingerprint() {
    cat "$ROOT/.ci/setup.sh" "$ROOT/tests/requirements.txt" "$OS_RELEASE" 2>/dev/null |
        cksum | tr -d '\n'
    printf ' %s' "$ROOT"
}

still_there() {
    command -v qgis_process >/dev/null && [ -x "$PYTHON" ] && [ -e "$VENV/constraints.txt" ]
}

# ---------------------------------------------------------------------------------- apt packages

install_system_packages() {
    local purpose=$1 missing
    mapfile -t missing < <(not_installed "${RUN_PACKAGES[@]}")
    [ "$purpose" = run ] ||
        mapfile -t -O "${#missing[@]}" missing < <(not_installed "${TEST_PACKAGES[@]}")
    local found
    found=$(qgis_version)
    if [ -n "$found" ]; then
        at_least "$found" "$QGIS_WANTED" || stop "QGIS $found is installed and Undercourse needs" \
            "$QGIS_WANTED or newer; upgrade QGIS (on Debian 12 from bookworm-backports), then run this again."
        install_packages "" "${missing[@]}"
    else
        command -v apt-get >/dev/null || stop "QGIS is not installed and this system has no apt;" \
            "install QGIS $QGIS_WANTED or newer, then run this again."
        update_lists
        local suite=""
        at_least "$(candidate qgis)" "$QGIS_WANTED" || suite=$(newer_suite)
        say "installing QGIS; this takes a few minutes"
        install_packages "$suite" "${QGIS_PACKAGES[@]}" "${missing[@]}"
    fi
}

# Print the version of the QGIS that runs here, as 3.40.6, or nothing.
qgis_version() {
    command -v qgis_process >/dev/null || return 0
    local package
    package=$(dpkg-query -W -f '${Version}' qgis 2>/dev/null) || package=""
    if [ -n "$package" ]; then
        package=${package#*:}
        printf '%s' "${package%%[+~-]*}"
    else
        QT_QPA_PLATFORM=offscreen qgis_process --version 2>/dev/null |
            sed -n 's/^QGIS \([0-9.]*\).*/\1/p'
    fi
}

at_least() { # version wanted
    [ "$(printf '%s\n%s\n' "$2" "$1" | sort -V | head -n 1)" = "$2" ]
}

not_installed() {
    command -v dpkg-query >/dev/null || return 0
    local package
    for package in "$@"; do
        dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed ||
            printf '%s\n' "$package"
    done
}

# Upstream version of what apt would install, as 3.40.6; 0 when there is none.
candidate() {
    local version
    version=$(LC_ALL=C apt-cache policy "$1" | sed -n 's/^ *Candidate: *//p')
    version=${version#*:}
    version=${version%%[+~-]*}
    case $version in "" | "(none)") version=0 ;; esac
    printf '%s' "$version"
}

# Print the suite that offers a QGIS new enough, and enable it; stop when there is none.
newer_suite() {
    local id codename offered
    id=$(. "$OS_RELEASE" && printf '%s' "${ID:-}")
    codename=$(. "$OS_RELEASE" && printf '%s' "${VERSION_CODENAME:-}")
    offered=$(candidate qgis)
    [ "$id" = debian ] || stop "the package sources of this system offer QGIS $offered and" \
        "Undercourse needs $QGIS_WANTED or newer; use a newer release of the system or add the" \
        "package source that QGIS itself publishes for it, then run this again."
    local suite=$codename-backports
    if ! LC_ALL=C apt-get indextargets --format '$(RELEASE)' | grep -qx "$suite"; then
        say "enabling $suite, which has a newer QGIS than $offered" >&2
        local uri keyring=/usr/share/keyrings/debian-archive-keyring.gpg option=""
        # The mirror that this machine uses already; Debian's own keyring signs backports too.
        uri=$(LC_ALL=C apt-get indextargets --format '$(REPO_URI)' \
            'Origin: Debian' "Codename: $codename" 'Component: main' | sort -u | head -n 1)
        [ -n "$uri" ] || stop "no Debian package source for $codename is set up on this machine," \
            "so that $suite cannot be found; add it to apt's sources, then run this again."
        [ ! -e "$keyring" ] || option="[signed-by=$keyring] "
        printf 'deb %s%s %s main\n' "$option" "$uri" "$suite" |
            as_root tee "/etc/apt/sources.list.d/$suite.list" >/dev/null
        update_lists
    fi
    printf '%s' "$suite"
}

update_lists() {
    logged "apt cannot read its package sources" as_root apt-get -q -o Acquire::Retries=3 update
}

have_lists() {
    [ -n "$(find /var/lib/apt/lists -name '*Packages*' -print -quit 2>/dev/null)" ] || update_lists
}

install_packages() { # suite or "", packages
    local suite=$1
    shift
    [ $# -gt 0 ] || return 0
    command -v apt-get >/dev/null ||
        stop "these are missing and this system has no apt to install them: $*"
    have_lists
    say "installing with apt: $*"
    local options=(-q -y --no-install-recommends -o Acquire::Retries=3)
    [ -z "$suite" ] || options+=(-t "$suite")
    logged "apt could not install $*" \
        as_root env DEBIAN_FRONTEND=noninteractive apt-get "${options[@]}" install "$@"
}

as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    elif command -v sudo >/dev/null; then
        sudo "$@"
    else
        stop "packages must be installed; run this as root or install sudo."
    fi
}

# Run a command with its output in the log; on failure show the end of it and stop.
logged() { # what went wrong, command
    local failure=$1
    shift
    if ! "$@" </dev/null >>"$LOG" 2>&1; then
        tail -n 25 "$LOG" >&2
        stop "$failure (the whole output is in $LOG)."
    fi
}

# ---------------------------------------------------------------------------------------- Python

# The environment stands on the system's Python: QGIS's own bindings are built for that one.
make_venv() {
    local prefix base
    prefix=$("$PYTHON" -c 'import sys; print(sys.prefix)' 2>/dev/null) || prefix=""
    base=$("$PYTHON" -c 'import sys; print(sys.base_prefix)' 2>/dev/null) || base=""
    if [ "$prefix" != "$VENV" ] || [ "$base" != /usr ]; then
        say "making the Python environment in .venv"
        logged "the Python environment cannot be made" \
            /usr/bin/python3 -m venv --clear --system-site-packages "$VENV"
    fi
    # A newer numpy than the system's would break GDAL's, scipy's and matplotlib's packages.
    /usr/bin/python3 -c 'import numpy; print("numpy==" + numpy.__version__)' >"$VENV/constraints.txt"
}

pip_install() { # what went wrong, arguments of pip
    local failure=$1
    shift
    logged "$failure" \
        "$PYTHON" -m pip --disable-pip-version-check --no-input install --no-cache-dir "$@"
}

# shapely must share the GEOS that QGIS has loaded. Where the system's package is too old it is
# built from source on the system's GEOS: a ready wheel brings a GEOS of its own and fails in QGIS.
provide_shapely() {
    ! shapely_fits || return 0
    have_lists
    if at_least "$(candidate python3-shapely)" 2.1; then
        install_packages "" python3-shapely
        ! shapely_fits || return 0
    fi
    local missing
    mapfile -t missing < <(not_installed "${BUILD_PACKAGES[@]}")
    install_packages "" "${missing[@]}"
    say "building shapely $SHAPELY_BUILT on the system's GEOS"
    pip_install "shapely cannot be built" -c "$VENV/constraints.txt" --force-reinstall --no-deps \
        --no-binary shapely "shapely==$SHAPELY_BUILT"
    shapely_fits || stop "shapely $SHAPELY_BUILT was built but does not work beside QGIS;" \
        "the output is in $LOG."
}

# Asked with QGIS's library in the process, as the plugin will be.
shapely_fits() {
    (
        cd "$ROOT" && QT_QPA_PLATFORM=offscreen "$PYTHON" - >>"$LOG" 2>&1 <<'EOF'
import qgis.core

from plugin.environment import problem

found = problem()
print(found or "shapely fits")
raise SystemExit(found is not None)
EOF
    )
}

install_test_tools() {
    say "installing the tools of the tests into .venv"
    pip_install "the tools of the tests cannot be installed" -c "$VENV/constraints.txt" \
        -r "$ROOT/tests/requirements.txt"
    # numpy's type annotations differ from version to version: the same ones on every machine,
    # for mypy alone. Never imported, so that the wheel of another Python will do.
    pip_install "the types of numpy cannot be installed" --target "$VENV/types" --upgrade \
        --no-deps --only-binary :all: --implementation cp --python-version 3.11 \
        --platform manylinux2014_x86_64 "numpy==$NUMPY_TYPES"
}

# ---------------------------------------------------------------------------------- QGIS profile

# QGIS wants one folder with metadata.txt beside __init__.py: its items are links to the tree.
link_profile() {
    local folder=$PROFILE/profiles/default
    mkdir -p "$folder/python/plugins/undercourse" "$folder/QGIS" "$PROFILE"/{home,cache,config,data}
    mkdir -p -m 700 "$PROFILE/runtime"
    local item
    for item in "$folder/python/plugins/undercourse/"*; do
        [ -e "$item" ] || rm -f "$item"
    done
    for item in "$ROOT"/plugin/* "$ROOT/metadata.txt" "$ROOT/i18n"; do
        [ "${item##*/}" = __pycache__ ] || ln -sfn "$item" "$folder/python/plugins/undercourse/"
    done
    [ -e "$folder/QGIS/QGIS3.ini" ] ||
        printf '[PythonPlugins]\nundercourse=true\nprocessing=true\n' >"$folder/QGIS/QGIS3.ini"
}

export_environment() {
    export QT_QPA_PLATFORM=offscreen
    export QGIS_CUSTOM_CONFIG_PATH=$PROFILE
    export HOME=$PROFILE/home XDG_CACHE_HOME=$PROFILE/cache XDG_CONFIG_HOME=$PROFILE/config
    export XDG_DATA_HOME=$PROFILE/data XDG_RUNTIME_DIR=$PROFILE/runtime
    local packages
    packages=$("$PYTHON" -c 'import sysconfig; print(sysconfig.get_path("purelib"))')
    export PYTHONPATH=$packages
    # A bare system speaks ASCII; file names and reports do not.
    [ -n "${LC_ALL:-}${LC_CTYPE:-}${LANG:-}" ] || export LC_ALL=C.UTF-8
    unset PYTHONHOME PYTHONSTARTUP QGIS_PLUGINPATH
}

check_plugin_environment() {
    local answer
    answer=$(qgis_process plugins 2>&1) || true
    grep -q '^\* *undercourse' <<<"$answer" || {
        printf '%s\n' "$answer" >&2
        stop "QGIS does not load the plugin from the profile in $PROFILE."
    }
}
