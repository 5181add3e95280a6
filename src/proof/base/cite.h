// SPDX-License-Identifier: MIT
#pragma once
// The clauses the checks lean on, named in one way.

#include <string>

#include "reason/reason.h"

namespace bw::proof {

using reason::Source;
using reason::Sources;
using reason::Standing;

[[nodiscard]] inline Source ifgc(std::string clause, Standing standing = Standing::memory) {
    return {"IFGC", "2018", std::move(clause), standing};
}
[[nodiscard]] inline Source ipc(std::string clause, Standing standing = Standing::memory) {
    return {"IPC", "2018", std::move(clause), standing};
}
[[nodiscard]] inline Source imc(std::string clause, Standing standing = Standing::memory) {
    return {"IMC", "2018", std::move(clause), standing};
}
[[nodiscard]] inline Source ibc(std::string clause, Standing standing = Standing::memory) {
    return {"IBC", "2018", std::move(clause), standing};
}
[[nodiscard]] inline Source nec(std::string clause, Standing standing = Standing::memory) {
    return {"NFPA 70", "2017", std::move(clause), standing};
}
[[nodiscard]] inline Source standard(std::string document, std::string edition = {}, std::string clause = {}) {
    return {std::move(document), std::move(edition), std::move(clause), Standing::memory};
}
[[nodiscard]] inline Source practice() { return {"", "", "", Standing::common_practice}; }
[[nodiscard]] inline Source given(std::string field) { return {"survey", "", std::move(field), Standing::given}; }
[[nodiscard]] inline Source by_pieces() { return {"this plant's pieces and joints", "", "", Standing::computed}; }

}  // namespace bw::proof
