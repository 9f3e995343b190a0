# run · test · check · faults · bench · bless · types

SHELL := bash
.SHELLFLAGS := -eu -o pipefail -c
.DELETE_ON_ERROR:

CORE_NEEDS   := build-essential perl pkg-config
WINDOW_NEEDS := $(CORE_NEEDS) libwebkit2gtk-4.1-dev librsvg2-dev
TEST_NEEDS   := $(WINDOW_NEEDS) poppler-utils xvfb xauth webkit2gtk-driver dbus strace

DEMO_PAPERS := $(CURDIR)/target/demo-papers
# tauri-driver stands between the journey and WebKitWebDriver; it is kept inside target/.
TOOLS       := $(CURDIR)/target/tools
DRIVER      := $(TOOLS)/bin/tauri-driver

.PHONY: run test check unit window faults bench bless types ui

## Opens the window on the demonstration notebook; without a display writes the demo papers instead.
run:
	@if [ -n "$${DISPLAY:-}$${WAYLAND_DISPLAY:-}" ]; then \
	    .ci/need $(WINDOW_NEEDS); \
	    $(MAKE) --no-print-directory ui; \
	    cargo run --locked -p evengap-window; \
	else \
	    echo "There is no display here, so no window can open; writing the demo papers instead."; \
	    .ci/need $(CORE_NEEDS); \
	    cargo run --quiet --locked -p evengap-cli -- demo --to "$(DEMO_PAPERS)"; \
	    echo "The demo papers are in $(DEMO_PAPERS)"; \
	fi

## Everything: checks, tests of the crates and of the window's code, one journey in the real window.
test: check unit window

## Formatting, lints, documentation, stale types.
check: ui
	@.ci/need $(TEST_NEEDS)
	cargo fmt --all --check
	cargo clippy --locked --workspace --all-targets -- -D warnings
	RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps --quiet
	$(MAKE) --no-print-directory types
	@git diff --exit-code -- ui/src/types && test -z "$$(git status --porcelain -- ui/src/types)" \
	    || { echo "ui/src/types is stale: run 'make types' and commit what it wrote."; exit 1; }
	npm --prefix ui run check

unit: ui
	@.ci/need $(TEST_NEEDS)
	cargo build --locked -p evengap-cli
	cargo test --locked
	npm --prefix ui test

window: ui $(DRIVER)
	@.ci/need $(TEST_NEEDS)
	cargo build --locked -p evengap-window
	PATH="$(TOOLS)/bin:$$PATH" LIBGL_ALWAYS_SOFTWARE=1 GTK_USE_PORTAL=0 NO_AT_BRIDGE=1 \
	    xvfb-run --auto-servernum --server-args="-screen 0 1440x900x24" dbus-run-session -- \
	    cargo test --locked --features evengap-tests/window --test window

$(DRIVER):
	cargo install tauri-driver --version '^2' --locked --root $(TOOLS) --target-dir target/tauri-driver

## Builds the window's pages.
ui: ui/node_modules/.package-lock.json
	npm --prefix ui run build

ui/node_modules/.package-lock.json: ui/package.json ui/package-lock.json
	npm --prefix ui ci
	@touch $@

## Everything that may happen to a notebook, in full and with figures: kills, power cuts, full disks, flipped bytes.
faults: ui
	@.ci/need $(TEST_NEEDS)
	cargo build --locked -p evengap-cli -p evengap-window
	EVENGAP_FAULTS=full cargo test --locked -p evengap-tests --features window --test faults -- --nocapture

## Measures against named alternatives, in one run.
bench:
	cargo run --release --manifest-path src-tauri/crates/papers/bench/Cargo.toml
	cargo run --release --manifest-path src-tauri/crates/label/bench/Cargo.toml
	cargo run --release --manifest-path src-tauri/crates/review/bench/Cargo.toml
	cargo run --release --manifest-path src-tauri/crates/notebook/bench/Cargo.toml

## Writes the golden files anew; read the diff before committing.
bless:
	UPDATE_EXPECT=1 cargo test --locked -p evengap-tests --test acceptance golden

## Writes the window's types from the Rust ones.
types:
	cargo run --quiet --locked -p evengap-desk --example types -- ui/src/types
