# `make test` runs every check; .ci/run calls it.
SHELL := bash
.SHELLFLAGS := -euo pipefail -c

# The test runner that is there. Only cargo's own runs the examples in the documentation.
RUN_TESTS := $(if $(shell cargo nextest --version 2>/dev/null),cargo nextest run,cargo test --lib --bins --tests) --no-fail-fast

SEED ?= 1

.PHONY: test format lint units docs bench soak fuzz mutate bless web serve screens web-test web-bench

test: format lint units docs screens

format:
	cargo fmt --all -- --check

lint:
	cargo clippy --locked --workspace --all-targets -- -D warnings

# The arrows of the house, the schema and the generated pages are tests too.
# Random cases come from one seed here, so that a change is judged by what it changed; `make soak` and `make fuzz` draw anew.
units:
	PROPTEST_RNG_SEED=$(SEED) $(RUN_TESTS) --locked --workspace
	cargo test --locked --workspace --doc

docs:
	RUSTDOCFLAGS="-D warnings" cargo doc --locked --workspace --no-deps

# On one core; put the ratios into docs/speed.md.
bench:
	cargo bench --locked --workspace --bench '*'

# Property tests for hours rather than seconds: optimised, debug assertions on.
CASES ?= 200000
soak:
	PROPTEST_CASES=$(CASES) CARGO_PROFILE_DEV_OPT_LEVEL=2 $(RUN_TESTS) --locked --workspace

# Broken jobs, sheets and imports, EXECUTIONS of each kind; `make test` does the same for a second. See docs/fuzzing.md.
EXECUTIONS ?= 100000
fuzz:
	PROPTEST_CASES=$(EXECUTIONS) CARGO_PROFILE_DEV_OPT_LEVEL=2 cargo test --locked -p reader -p plan -p exchange --test mistakes --test hostile

# Changes every figure of the rules by 1 % and looks whether a test fails; minutes, so not a part of `make test`.
mutate:
	crates/checks/mutate.sh

# Writes what is made from the code anew: pictures, pages, schema, drawings. Look at the difference before you keep it.
bless:
	HEADLAP_BLESS=1 $(RUN_TESTS) --workspace

# The front end, from the packages that web/package-lock.json names. Needs Node.js 20.19 or later with npm.
web:
	cd web && npm ci --no-audit --no-fund && npm run build

# Builds all and opens the app.
serve: web
	cargo run --locked --release --bin headlap -- serve

# Types and drawing model of the front end, where there is npm. Rust needs none of it.
ifneq ($(shell npm --version 2>/dev/null),)
screens: web
	cd web && npm run check && npm test
else
screens:
	@echo "npm is not there: the front end is not tested"
endif

# The screens of the real program, in Chromium (Debian: chromium; elsewhere CHROMIUM=path).
web-test: screens
	cargo build --locked --workspace --bin headlap
	cd web && HEADLAP=$${CARGO_TARGET_DIR:-$(CURDIR)/target}/debug/headlap npm run browser

# How fast the screens are, in Chromium with a program that is not optimised to the end; put the figures into docs/speed.md.
web-bench: web
	cargo build --locked --workspace --bin headlap
	cd web && HEADLAP=$${CARGO_TARGET_DIR:-$(CURDIR)/target}/debug/headlap npm run bench
