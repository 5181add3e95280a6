// SPDX-License-Identifier: MIT
#pragma once
// Each command adds itself to the program and leaves what it must do in `todo`; main runs it.

#include <CLI/CLI.hpp>
#include <functional>

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

void add_survey(Program& program);
void add_design(Program& program);
void add_compare(Program& program);
void add_reckon(Program& program);
void add_catalogue(Program& program);
void add_serve(Program& program);

}  // namespace bw::cli
