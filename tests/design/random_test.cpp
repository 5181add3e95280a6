// SPDX-License-Identifier: MIT
// Random but plausible surveys: each ends in a lawful plant or in a failure that says what is wrong.
// BANKWRIGHT_SURVEYS=5000 runs more seeds than CI does.
#include <cstdlib>

#include "../support/random_survey.h"
#include "laws.h"

namespace bw::test {
namespace {

constexpr int blocks = 6;

int surveys() {
    const char* wanted = std::getenv("BANKWRIGHT_SURVEYS");
    return wanted ? std::max(blocks, std::atoi(wanted)) : 120;
}

/// Counts a seed as built, or as refused with its reason.
struct Score {
    int built = 0, refused = 0, unbuilt = 0;
};

void try_seed(std::uint64_t seed, const catalogue::Catalogue& catalogue, Score& score) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const auto survey = survey::parse(random_survey(seed), "random.toml");
    if (!survey) {
        EXPECT_GT(survey.error().place.line, 0) << survey.error().what;
        EXPECT_FALSE(survey.error().what.empty());
        ++score.refused;
        return;
    }
    const auto result = design::run(*survey, catalogue, {.candidates = 1, .most_tried = 4});
    if (!result) {
        EXPECT_FALSE(result.error().what.empty());
        ++score.refused;
        return;
    }
    if (!result->chosen) {
        ASSERT_EQ(result->checks.size(), 1u);
        EXPECT_EQ(result->checks.front().id, "layout.fit");
        EXPECT_GT(result->checks.front().says.size(), 20u);
        EXPECT_EQ(result->exit_status(), 2);
        ++(result->candidates.empty() ? score.refused : score.unbuilt);
        return;
    }
    expect_lawful(*result);
    for (const auto& check : result->checks)
        if (check.status == reason::Status::fail) {
            EXPECT_FALSE(check.says.empty()) << check.id;
        }
    ++score.built;
}

class RandomSurveys : public ::testing::TestWithParam<int> {};
INSTANTIATE_TEST_SUITE_P(Block, RandomSurveys, ::testing::Range(0, blocks));

TEST_P(RandomSurveys, EndInALawfulPlantOrANamedFailure) {
    const auto catalogue = catalogue::load();
    ASSERT_TRUE(catalogue);
    Score score;
    for (int seed = GetParam(); seed < surveys(); seed += blocks)
        try_seed(static_cast<std::uint64_t>(seed), *catalogue, score);
    std::printf("%d built, %d without room or heaters, %d placed but not piped\n", score.built, score.refused,
                score.unbuilt);
    // were nearly everything refused, this would prove little
    EXPECT_GE(score.built, surveys() / blocks / 8);
    EXPECT_GE(score.built, score.unbuilt / 2);
}

}  // namespace
}  // namespace bw::test
