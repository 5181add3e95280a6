// SPDX-License-Identifier: MIT
#pragma once
// Each command adds itself to the program and leaves what it must do in `todo`; main runs it.

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "units/amount.h"
#include "units/error.h"

namespace bw::cli {

/// Exit status of a command that ran: 0, or 2 when a check fails.
using Outcome = bw::Result<int>;

struct Program {
    CLI::App app;
    units::System units = units::System::us;
    std::vector<std::string> data;  ///< catalogue files or folders read over the embedded one
    std::function<Outcome()> todo;

    explicit Program(std::string description) : app(std::move(description)) {}
};

/// An option that takes one of a few words and nothing else.
template <class Value>
void add_choice(CLI::App& app, const std::string& name, const std::string& says,
                std::vector<std::pair<std::string, Value>> choices, std::function<void(Value)> take) {
    const auto set = [name, choices = std::move(choices), take = std::move(take)](const std::string& word) {
        std::string expected;
        for (const auto& [known, value] : choices) {
            if (known == word) return take(value);
            expected += (expected.empty() ? "" : known == choices.back().first ? " or " : ", ") + known;
        }
        throw CLI::ValidationError(name, "'" + word + "' is not a choice here, expected " + expected);
    };
    app.add_option_function<std::string>(name, set, says);
}

void add_survey(Program& program);
void add_design(Program& program);
void add_compare(Program& program);
void add_reckon(Program& program);
void add_catalogue(Program& program);
void add_checks(Program& program);
void add_serve(Program& program);

}  // namespace bw::cli
