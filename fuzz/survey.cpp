// SPDX-License-Identifier: MIT
// Any bytes as a survey.
#include "survey/survey.h"

#include "must.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const auto survey = bw::survey::parse(std::string(bw::fuzz::text_of(data, size)), "fuzz.toml");
    if (!survey) bw::fuzz::must_explain(survey.error());
    return 0;
}
