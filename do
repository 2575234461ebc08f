#!/usr/bin/env bash
# The one task script of the checkout. "./do help" lists the tasks: the lines below that begin with "#:".
set -euo pipefail
cd "$(dirname "$(readlink -f "${BASH_SOURCE[0]}")")"

#: demo           build the sample training area: demo/training-area.gpkg, training-area.qgz, briefing.pdf
#: test           run the tests; what follows goes to pytest (./do test tests/geometry -k holds)
#: test --matrix  the same here and in the other Debian release (12, 13), in a clean root made under .build/
#: bench          run the benchmarks of tests/benchmarks
#: lint           check the code: style, errors, and what the plugin repository refuses
#: package        build the plugin's zip in .build/dist, the same bytes every time
#: setup          install what the tasks above need; each does it by itself too
#: clean          remove .build, .venv and demo
#: help           print this

PYTHON=/usr/bin/python3
QGIS_PACKAGES=(qgis python3-qgis python3-shapely python3-pyproj fonts-dejavu-core)
TEST_PACKAGES=("${QGIS_PACKAGES[@]}" python3-venv poppler-utils)
DEMO_DATE=2026-09-01

# Everything that is generated stays below the checkout, and nothing of the user's own set-up is read or written.
export LC_ALL=C.UTF-8 QT_QPA_PLATFORM=offscreen
export PYTHONPYCACHEPREFIX=$PWD/.build/pycache HYPOTHESIS_STORAGE_DIRECTORY=$PWD/.build/hypothesis
export PROJ_DATA=/usr/share/proj # inside a virtual environment Debian's pyproj does not find it by itself
export QGIS_CUSTOM_CONFIG_PATH=$PWD/.build/qgis QGIS_PLUGINPATH=$PWD/.build/plugins XDG_RUNTIME_DIR=$PWD/.build/run
unset PYTHONPATH PYTHONHOME VIRTUAL_ENV

die() {
    echo "do: $*" >&2
    exit 1
}

# quietly LOG COMMAND...: the command's output goes to .build/LOG and is shown only if it fails
quietly() {
    local log=.build/$1
    shift
    "$@" >"$log" 2>&1 </dev/null || {
        tail -n 40 "$log" >&2
        die "failed: $* (whole log: $log)"
    }
}

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"; else sudo -E "$@"; fi
}

# need PACKAGE...: installs what is missing of the distribution's packages
need() {
    local missing
    missing=$(comm -23 <(printf '%s\n' "$@" | sort) <(installed "$@" | sort) | tr '\n' ' ')
    [ -n "$missing" ] || return 0
    . /etc/os-release 2>/dev/null || true
    case "${ID:-}${VERSION_ID:-}" in
        debian12 | debian13) ;;
        *) die "this needs Debian 12 or 13 with the packages ${missing% }; this is ${PRETTY_NAME:-another system}." ;;
    esac
    [ "$(id -u)" = 0 ] || command -v sudo >/dev/null ||
        die "missing packages: ${missing% }; run this as root, install sudo, or install them yourself."
    echo "Installing ${missing% } ..." >&2
    quietly apt.log as_root env DEBIAN_FRONTEND=noninteractive sh -ec "apt-get update -q
        apt-get install -q -y --no-install-recommends $missing"
}

installed() {
    { dpkg-query -W -f '${db:Status-Status} ${Package}\n' "$@" 2>/dev/null || true; } | sed -n 's/^installed //p'
}

# .venv over the system's Python, which has QGIS; made again when the requirements, that Python or the path change
virtual_environment() {
    local stamp
    stamp=$({ pwd; "$PYTHON" --version; cat tests/requirements.txt; } | sha256sum)
    exec 9>.build/venv.lock
    flock 9 # two tasks at once must not both make it
    [ "$(cat .venv/stamp 2>/dev/null)" = "$stamp" ] || make_virtual_environment "$stamp"
    exec 9>&-
}

make_virtual_environment() {
    echo "Installing the test requirements into .venv ..." >&2
    rm -rf .venv
    quietly venv.log "$PYTHON" -m venv --system-site-packages .venv
    quietly pip.log .venv/bin/pip install --disable-pip-version-check --no-deps -r tests/requirements.txt
    echo "$1" >.venv/stamp
}

# A QGIS profile of our own that loads this checkout as the plugin "fixwright", whatever its folder is called
qgis_profile() {
    mkdir -p .build/plugins .build/qgis/profiles/default/QGIS
    mkdir -p -m 700 .build/run
    [ "$(readlink .build/plugins/fixwright)" = "$PWD" ] || ln -sfn "$PWD" .build/plugins/fixwright
    printf '[PythonPlugins]\nfixwright=true\n' >.build/qgis/profiles/default/QGIS/QGIS3.ini
}

# Debian 12's qgis_process is a broken wrapper around qgis_process.bin; Debian 13's works
qgis_process() {
    if [ -x /usr/bin/qgis_process.bin ]; then
        /usr/bin/qgis_process.bin "$@"
    else
        /usr/bin/qgis_process "$@"
    fi
}

setup() {
    need "${TEST_PACKAGES[@]}"
    virtual_environment
    qgis_profile
}

demo() {
    need "${QGIS_PACKAGES[@]}"
    qgis_profile
    local file files=(training-area.gpkg training-area.qgz briefing.pdf)
    rm -f "${files[@]/#/demo/}" # what stands there afterwards was made now
    if ! qgis_process run fixwright:buildarea -- \
        NAVAIDS="sample_layers/navaids.gpkg|layername=navaids" PLAN=sample_layers/plan.csv \
        AIRCRAFT=sample_layers/aircraft.csv DEM=sample_layers/terrain.tif \
        OBSTACLES="sample_layers/obstacles.gpkg|layername=obstacles" AIRSPACE="sample_layers/airspace.gpkg|layername=airspace" \
        ROUTES="sample_layers/airspace.gpkg|layername=routes" PLACES="sample_layers/airspace.gpkg|layername=places" \
        TITLE="Quillandra Reach" DATE="$DEMO_DATE" FOLDER=demo >.build/demo.log 2>&1 </dev/null; then
        tail -n 20 .build/demo.log >&2
        die "the demo failed (whole log: .build/demo.log)"
    fi
    for file in "${files[@]}"; do
        [ -s "demo/$file" ] || die "the demo wrote no demo/$file (log: .build/demo.log)"
    done
    cat <<EOF
The sample training area, as of $DEMO_DATE:
  demo/training-area.gpkg   navaids, fixes, holds, patterns, flown tracks, entries, areas, tests, rejects
  demo/training-area.qgz    the map; open it in QGIS
  demo/briefing.pdf         the briefing
For training and briefing, not for navigation.
EOF
}

run_tests() {
    setup
    FIXWRIGHT_REQUIRE_QGIS=1 .venv/bin/pytest "$@"
}

# Both runs always take place; the last lines say how each ended
matrix() {
    . /etc/os-release
    local other here=0 there=0
    case "${ID:-}${VERSION_ID:-}" in
        debian12) other=trixie ;;
        debian13) other=bookworm ;;
        *) die "--matrix needs Debian 12 or 13; this is ${PRETTY_NAME:-another system}." ;;
    esac
    need debootstrap
    setup
    ./do test "$@" 2>&1 | tee .build/test-here.log || here=1
    rm -f .build/test-there.log
    if as_root tools/other_release prepare "$other"; then
        as_root tools/other_release run "$other" ./do test "$@" 2>&1 | tee .build/test-there.log || there=1
    elif [ "${FIXWRIGHT_MATRIX_OPTIONAL:-}" != 1 ]; then
        there=3
    fi
    echo
    echo "Debian ${VERSION_CODENAME}: $(closing_line .build/test-here.log)"
    if [ -e .build/test-there.log ]; then
        echo "Debian $other: $(closing_line .build/test-there.log)"
    else
        echo "######## THE OTHER DEBIAN RELEASE ($other) WAS NOT TESTED: the reason stands above ########"
    fi
    [ "$there" != 3 ] || exit 3
    [ "$here$there" = 00 ]
}

closing_line() {
    grep -aE '^=+ .*(passed|failed|error|skipped|no tests ran).* =+$' "$1" | tail -n 1 || echo "no result"
}

bench() {
    [ -e tests/benchmarks/run.py ] || die "there are no benchmarks yet (tests/benchmarks/run.py)."
    setup
    .venv/bin/python tests/benchmarks/run.py "$@"
    .venv/bin/python tests/benchmarks/sheets.py "$(mktemp -d)"
}

lint() {
    need python3-venv
    virtual_environment
    local shipped=(__init__.py geometry algorithms plugin sample_layers)
    .venv/bin/ruff check --quiet .
    .venv/bin/python -m pyflakes "${shipped[@]}"
    .venv/bin/bandit --quiet --recursive "${shipped[@]}"
    echo "lint: nothing found"
}

clean() {
    ! grep -qF " $PWD/.build/" /proc/self/mountinfo || die "something is mounted below .build; unmount it first."
    [ ! -e .build/matrix ] || as_root rm -rf --one-file-system .build/matrix
    rm -rf --one-file-system .build .venv demo build ./*.egg-info .pytest_cache .ruff_cache .hypothesis
    find . -name __pycache__ -prune -exec rm -rf {} +
}

mkdir -p .build
task=${1:-help}
[ $# = 0 ] || shift
case "$task" in
    demo) demo ;;
    test)
        if [ "${1:-}" = --matrix ]; then
            shift
            matrix "$@"
        else
            run_tests "$@"
        fi
        ;;
    bench) bench "$@" ;;
    lint) lint ;;
    package) "$PYTHON" tools/package.py .build/dist ;;
    setup) setup ;;
    clean) clean ;;
    help | -h | --help)
        echo "Usage: ./do TASK"
        sed -n 's/^#: /  /p' "${BASH_SOURCE[0]}"
        ;;
    *) die "no task '$task'; ./do help lists them." ;;
esac
