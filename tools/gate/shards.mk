# A corpus linted in shards by make: make -f shards.mk -j 8 CORPUS=corpus SHARDS=8
# The verdict is that of one run: exit status 0 or, of make, 2 where something fails. LINT_WORDS and MERGE_WORDS are
# further words of the two commands. (LINT is a variable that make has already.)
CORPUS ?= .
SHARDS ?= 8
OUTPUT ?= shards
OHMLORE ?= ohmlore

numbers := $(shell seq $(SHARDS))
files := $(numbers:%=$(OUTPUT)/%.shard)

.PHONY: verdict FORCE
verdict: $(files)
	$(OHMLORE) merge $(files) $(MERGE_WORDS)

# What it finds the verdict says, too. Each time anew: what a shard depends on is for a cache to know, each shard's own:
# LINT_WORDS='--cache cache.$*'.
$(OUTPUT)/%.shard: FORCE | $(OUTPUT)
	$(OHMLORE) lint '$(CORPUS)' --shard $*/$(SHARDS) --report shard=$@ --jobs 1 $(LINT_WORDS) >/dev/null

$(OUTPUT):
	mkdir -p $@
