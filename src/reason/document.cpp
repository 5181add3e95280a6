// SPDX-License-Identifier: MIT
#include "reason/document.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace bw::reason {
namespace {

constexpr std::array rows{
    DocumentRow{Document::ifgc, "IFGC", "", "2018", "fuel gas"},
    DocumentRow{Document::nfpa_54, "NFPA 54", "", "2018", "fuel gas"},
    DocumentRow{Document::ipc, "IPC", "", "2018", "plumbing"},
    DocumentRow{Document::upc, "UPC", "", "2018", "plumbing"},
    DocumentRow{Document::imc, "IMC", "", "2018", "mechanical"},
    DocumentRow{Document::umc, "UMC", "", "2018", "mechanical"},
    DocumentRow{Document::nec, "NEC", "NFPA 70", "2017", "electrical"},
    DocumentRow{Document::ibc, "IBC", "", "2018", "building"},
    DocumentRow{Document::ifc, "IFC", "", "2018", "fire"},
    DocumentRow{Document::asce_7, "ASCE 7", "", "2016", "structural"},
    DocumentRow{Document::iecc, "IECC", "", "2018", "energy"},
    DocumentRow{Document::ashrae_90_1, "ASHRAE 90.1", "", "2016", "energy"},
    DocumentRow{Document::aci_318, "ACI 318", "", "2014", ""},
    DocumentRow{Document::asme_bpvc, "ASME BPVC", "", "2019", ""},
    DocumentRow{Document::asme_csd_1, "ASME CSD-1", "", "2018", ""},
    DocumentRow{Document::ashrae_guideline_12, "ASHRAE Guideline 12", "", "2000", ""},
    DocumentRow{Document::ashrae_188, "ASHRAE 188", "", "2018", ""},
    DocumentRow{Document::nsf_61, "NSF/ANSI/CAN 61", "", "", ""},
    DocumentRow{Document::nsf_372, "NSF/ANSI 372", "", "", ""},
    DocumentRow{Document::astm_d696, "ASTM D696", "", "", ""},
};

}  // namespace

std::span<const DocumentRow> documents() { return rows; }

const DocumentRow& row_of(Document document) {
    const auto& row = rows[static_cast<std::size_t>(document)];
    assert(row.document == document);
    return row;
}

const DocumentRow* document_named(std::string_view name) {
    const auto found = std::ranges::find_if(
        rows, [&](const auto& row) { return !name.empty() && (row.spelled == name || row.also == name); });
    return found == rows.end() ? nullptr : &*found;
}

Source cite(Document document, std::string clause, Standing standing) {
    const auto& row = row_of(document);
    return {std::string(row.spelled), std::string(row.edition), std::move(clause), standing};
}

}  // namespace bw::reason
