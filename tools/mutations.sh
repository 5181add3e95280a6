#!/bin/sh
# Spoils surveys at random and has them edited, watched by the address and undefined-behavior sanitizers.
#     tools/mutations.sh [HOW_MANY [SEED]]
set -e
cd "$(dirname "$0")/.."
cmake --preset asan > /dev/null
cmake --build --preset asan --target test_jobs
BANKWRIGHT_MUTATIONS=${1:-20000} BANKWRIGHT_SEED=${2:-7} LSAN_OPTIONS=suppressions=tests/support/lsan.supp \
    build/asan/tests/test_jobs --gtest_filter='Mutations.*:Bounds.ARemark*:Bounds.WhatLooks*:Outline.*'
