# The commands of the project. Each sets up what it needs and nothing else.
# One build profile (dev, see Cargo.toml) serves demo and tests, so nothing is built twice.

.PHONY: help need-cargo demo test format lint tests deny deny-tool checks bench bench-keep prove web browser book book-tool

help:
	@echo "make demo     build the command and walk through the invented job"
	@echo "make test     formatting, lints, tests, dependency rules"
	@echo "make prove    outside checks: source, expected, got, verdict"
	@echo "make checks   make the outside values again with Python and compare"
	@echo "make bench    benchmarks beside their references and floors"
	@echo "make bench-keep   the same kept for the next time, with counts of instructions (valgrind)"
	@echo "make web      check, test and build the page (npm); cargo embeds what is built"
	@echo "make browser  the page in Chromium against the built program"
	@echo "make book     the book of docs/, into target/book/html; installs mdbook if missing"
	@echo "make deny     dependency rules alone; installs cargo-deny if missing (a few minutes)"

need-cargo:
	@command -v cargo >/dev/null || { \
	  echo "make: no cargo here. mend: install the Rust toolchain (1.95 or newer) and try again"; \
	  exit 1; }

# Built without papers and many houses, as a newcomer does, in half a minute; NORTHWALL_PROGRAM
# names a program that is there already, and nothing is built.
program = $(if $(NORTHWALL_PROGRAM),@:,cargo build --locked -p northwall)

demo: need-cargo
	$(program)
	@jobs/tour

test: need-cargo format lint tests
	@if cargo deny --version >/dev/null 2>&1; then $(MAKE) --no-print-directory deny; \
	else echo "not checked: dependency rules. cargo-deny is not installed; make deny does it"; fi

format:
	cargo fmt --all --check

# Everything there is: one build of the program, with papers and houses by the thousand.
whole = --locked --workspace --features northwall/papers,northwall/many

lint:
	cargo clippy $(whole) --all-targets -- -D warnings

# Plain cargo test: it runs the doc tests too, and needs nothing installed.
tests:
	cargo test $(whole) --no-fail-fast

deny-tool: need-cargo
	@cargo deny --version >/dev/null 2>&1 || cargo install --locked cargo-deny --version 0.20.2

deny: deny-tool
	cargo deny --locked check bans licenses sources

prove: need-cargo
	$(if $(NORTHWALL_PROGRAM),$(NORTHWALL_PROGRAM),cargo run --quiet --locked -p northwall --) prove

checks:
	checks/run

bench: need-cargo
	benches/run

# Counts of instructions, then times; both are kept, and docs/benchmarks.md is made of them.
bench-keep: need-cargo
	benches/count.py --keep
	benches/run --keep

# The page. It is built before the program, which embeds it; without it a plain sheet stands in.
web:
	@command -v npm >/dev/null || { \
	  echo "make: no npm here. mend: install Node 20.19 or newer with npm and try again"; exit 1; }
	cd web && npm ci --no-audit --no-fund && npm run api && npm run check && npm test && npm run build

# Needs web/dist before the program is built, and chromium. The page asks for papers too.
browser: need-cargo
	$(if $(NORTHWALL_PROGRAM),@:,NORTHWALL_PAGE=required cargo build --locked -p northwall --features papers)
	cd web && npm run browser

book-tool: need-cargo
	@mdbook --version >/dev/null 2>&1 || cargo install --locked mdbook --version 0.5.4 --no-default-features --features search

# Its chapters are made from the command, the code and docs/, so they cannot drift.
book: book-tool
	$(program)
	docs/book/make.py
	mdbook build target/book
	docs/book/links.py
