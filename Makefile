.PHONY: setup serve demo test check fix bench fuzz lock clean

setup:            ## make .venv with what pinfold needs to run
	@scripts/setup runtime

serve: setup      ## the pages on the sample "seed garden"
	@[ -f demo-site/plan.toml ] || .venv/bin/pinfold new demo-site --sample seed-garden
	@.venv/bin/pinfold serve --site demo-site

demo: setup       ## the main job on a sample: every verb, drawings and binder
	@.venv/bin/python scripts/demo.py

test:             ## everything the project checks about itself
	@scripts/setup dev
	@scripts/check
	@scripts/test

check:
	@scripts/setup dev
	@scripts/check

fix:
	@scripts/setup dev
	@scripts/fix

bench:            ## speed, as ratios in one run
	@scripts/setup dev
	@.venv/bin/python -m bench

fuzz:             ## at least 5,000 broken plan files
	@scripts/setup dev
	@scripts/test --fuzz -m fuzz

lock:
	@scripts/lock

clean:
	rm -rf .venv demo-site
