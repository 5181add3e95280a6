// SPDX-License-Identifier: MIT
#include "proof/policy.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using reason::Check;
using reason::Standing;
using reason::Status;
using ::testing::HasSubstr;

survey::Survey adopting(std::vector<survey::Code> codes) {
    survey::Survey survey;
    survey.codes = std::move(codes);
    return survey;
}

/// Whether a document's name holds that of a code somebody adopts. The names are this test's own, so that a spelling
/// the table under test does not know is met all the same.
bool names_a_code(const std::string& document) {
    for (const auto* name :
         {"IFGC", "NFPA 54", "IPC", "UPC", "IMC", "UMC", "NEC", "NFPA 70", "IBC", "IECC", "ASCE 7", "90.1"})
        if (document.find(name) != std::string::npos) return true;
    return document == "IFC";
}

Check passing(reason::Sources sources) {
    Check check;
    check.id = "x";
    check.status = Status::pass;
    check.sources = std::move(sources);
    return check;
}

const reason::Source fuel_gas{"IFGC", "2018", "408.4", Standing::published};
const reason::Source national{"NFPA 54", "2018", "9.6.8", Standing::memory};

TEST(Policy, AnAdoptedEditionKeepsItsPass) {
    auto check = passing({fuel_gas});
    apply_adoption_policy(check, adopting({{"IFGC", "2018", ""}}));
    EXPECT_EQ(check.status, Status::pass);
    EXPECT_EQ(check.says, "");
}

TEST(Policy, WithoutAdoptedCodesAClauseRefers) {
    auto check = passing({fuel_gas});
    apply_adoption_policy(check, adopting({}));
    EXPECT_EQ(check.status, Status::refer);
    EXPECT_THAT(check.says, HasSubstr("names no adopted code"));
    EXPECT_THAT(check.says, HasSubstr("IFGC 2018"));
}

TEST(Policy, AnotherEditionRefersAndNamesBoth) {
    auto check = passing({fuel_gas});
    apply_adoption_policy(check, adopting({{"IFGC", "2021", ""}}));
    EXPECT_EQ(check.status, Status::refer);
    EXPECT_THAT(check.says, HasSubstr("adopts IFGC 2021"));
    EXPECT_THAT(check.says, HasSubstr("IFGC 2018"));
}

TEST(Policy, EitherOfTwoCodesOfOneLawWillDo) {
    auto check = passing({fuel_gas, national});
    apply_adoption_policy(check, adopting({{"NFPA 54", "2018", ""}}));
    EXPECT_EQ(check.status, Status::pass);
}

TEST(Policy, EveryLawCitedMustBeAdopted) {
    auto check = passing({fuel_gas, reason::nec("250.104(B)")});
    apply_adoption_policy(check, adopting({{"IFGC", "2018", ""}}));
    EXPECT_EQ(check.status, Status::refer);
    EXPECT_THAT(check.says, HasSubstr("electrical"));
    auto both = passing({fuel_gas, reason::nec("250.104(B)")});
    apply_adoption_policy(both, adopting({{"IFGC", "2018", ""}, {"NEC", "2017", ""}}));
    EXPECT_EQ(both.status, Status::pass);
}

TEST(Policy, StandardsAndPracticeNeedNoAdoption) {
    auto check = passing({{"NSF/ANSI/CAN 61", "", "", Standing::memory}, {"", "", "", Standing::common_practice}});
    apply_adoption_policy(check, adopting({}));
    EXPECT_EQ(check.status, Status::pass);
}

TEST(Policy, AFailureIsNeverExcused) {
    auto check = passing({fuel_gas});
    check.status = Status::fail;
    apply_adoption_policy(check, adopting({}));
    EXPECT_EQ(check.status, Status::fail);
}

TEST(Policy, WhatIsAssumedAboutSafetyRefers) {
    auto survey = adopting({});
    survey.assumed = {{"gas.delivery-pressure", "7 inH2O", "usual", true}, {"supply.hardness", "120", "usual", false}};
    auto gas = passing({{"", "", "", Standing::common_practice}});
    gas.status = Status::tight;
    gas.assumptions = {"gas.delivery-pressure"};
    apply_adoption_policy(gas, survey);
    EXPECT_EQ(gas.status, Status::refer);
    EXPECT_THAT(gas.says, HasSubstr("7 inH2O"));
    EXPECT_THAT(gas.says, HasSubstr("the gas supplier"));
    auto hardness = passing({{"", "", "", Standing::common_practice}});
    hardness.assumptions = {"supply.hardness"};
    apply_adoption_policy(hardness, survey);
    EXPECT_EQ(hardness.status, Status::pass);
}

TEST(Policy, AWholePlantWithoutCodesPassesNoClause) {
    auto job = tests::wash_house();
    job.survey.codes.clear();
    int clauses = 0;
    for (const auto& check : job.prove()) {
        const auto cited = std::ranges::find_if(check.sources, [](const auto& s) { return names_a_code(s.document); });
        if (cited == check.sources.end()) continue;
        ++clauses;
        EXPECT_EQ(check.status, Status::refer) << check.id << " cites " << cited->document << ": " << check.says;
    }
    EXPECT_GT(clauses, 50);
}

TEST(Policy, EveryDocumentIsCitedUnderOneSpellingAndInOneEdition) {
    for (const auto& check : tests::hostel().prove())
        for (const auto& source : check.sources) {
            if (!names_a_code(source.document)) continue;
            const auto* row = reason::document_named(source.document);
            ASSERT_NE(row, nullptr) << check.id << " cites " << source.document;
            EXPECT_EQ(source.document, row->spelled) << check.id;
            EXPECT_EQ(source.edition, row->edition) << check.id;
        }
}

TEST(Policy, ASurveyWithoutAnElectricalCodePassesNoElectricalClause) {
    auto job = tests::wash_house();
    std::erase_if(job.survey.codes,
                  [](const auto& code) { return code.document == "NEC" || code.document == "NFPA 70"; });
    int clauses = 0;
    for (const auto& check : job.prove())
        for (const auto& source : check.sources)
            if (source.document.find("NEC") != std::string::npos ||
                source.document.find("NFPA 70") != std::string::npos) {
                ++clauses;
                EXPECT_NE(check.status, Status::pass) << check.id;
                EXPECT_NE(check.status, Status::tight) << check.id;
            }
    EXPECT_GT(clauses, 8);
}

TEST(Policy, AnAssumedGasPressureRefersEveryPressure) {
    auto job = tests::wash_house();
    job.survey.assumed.push_back({"gas.delivery-pressure", "2 psi", "for this test", true});
    const auto checks = job.prove();
    for (const auto* id :
         {"gas.pressure.heater-1", "gas.static.heater-8", "gas.drop", "gas.indoor-pressure", "gas.delivery"})
        EXPECT_EQ(tests::check(checks, id).status, Status::refer) << id;
}

}  // namespace
}  // namespace bw::proof
