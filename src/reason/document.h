// SPDX-License-Identifier: MIT
#pragma once
// The codes and standards that checks cite: each stands here once, under one spelling and in one edition.

#include <optional>
#include <span>
#include <string_view>

#include "reason/reason.h"

namespace bw::reason {

enum class Document {
    ifgc,
    nfpa_54,
    ipc,
    upc,
    imc,
    umc,
    nec,
    ibc,
    ifc,
    asce_7,
    iecc,
    ashrae_90_1,
    aci_318,
    asme_bpvc,
    asme_csd_1,
    ashrae_guideline_12,
    ashrae_188,
    nsf_61,
    nsf_372,
    astm_d696,
};

struct DocumentRow {
    Document document{};
    std::string_view spelled;      ///< "NEC"
    std::string_view also;         ///< another name surveys may use: "NFPA 70"; may be empty
    std::string_view edition;      ///< the one whose clauses are quoted; empty where no clause hangs on it
    std::string_view body_of_law;  ///< "electrical"; empty for standards that nobody adopts by name
};

/// Every document, in the order of the enumeration.
[[nodiscard]] std::span<const DocumentRow> documents();
[[nodiscard]] const DocumentRow& row_of(Document document);
/// By either of its names.
[[nodiscard]] const DocumentRow* document_named(std::string_view name);

/// A clause of a document, in the edition that is quoted.
[[nodiscard]] Source cite(Document document, std::string clause, Standing standing = Standing::memory);

[[nodiscard]] inline Source ifgc(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::ifgc, std::move(clause), standing);
}
[[nodiscard]] inline Source nfpa54(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::nfpa_54, std::move(clause), standing);
}
[[nodiscard]] inline Source ipc(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::ipc, std::move(clause), standing);
}
[[nodiscard]] inline Source imc(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::imc, std::move(clause), standing);
}
[[nodiscard]] inline Source ibc(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::ibc, std::move(clause), standing);
}
[[nodiscard]] inline Source nec(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::nec, std::move(clause), standing);
}
[[nodiscard]] inline Source asce7(std::string clause, Standing standing = Standing::memory) {
    return cite(Document::asce_7, std::move(clause), standing);
}
[[nodiscard]] inline Source practice() { return {"", "", "", Standing::common_practice}; }

}  // namespace bw::reason
