// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <cstdio>
#include <exception>

#include "cli/commands.h"

namespace {

constexpr int bad_input = 1;

int run(bw::cli::Program& program, int argc, char** argv) {
    try {
        program.app.parse(argc, argv);
    } catch (const CLI::Success& asked_for_help) {
        return program.app.exit(asked_for_help);
    } catch (const CLI::ParseError& error) {
        fmt::print(stderr, "bankwright: {} (bankwright --help lists the commands)\n", error.what());
        return bad_input;
    }
    const auto outcome = program.todo();
    if (outcome) return *outcome;
    fmt::print(stderr, "{}\n", bw::units::describe(outcome.error()));
    return bad_input;
}

}  // namespace

int main(int argc, char** argv) {
    bw::cli::Program program{
        "Bankwright: from a survey to a proved bank of gas-fired water heaters and everything needed to build it."};
    auto& app = program.app;
    app.name("bankwright");
    app.set_version_flag("--version", std::string("bankwright ") + BANKWRIGHT_VERSION);
    app.require_subcommand(1);
    app.fallthrough();
    app.add_option("--units", program.units, "units of what is printed: us (default) or si")
        ->transform(CLI::CheckedTransformer(
            std::map<std::string, bw::units::System>{{"us", bw::units::System::us}, {"si", bw::units::System::si}}));
    app.add_option("--data", program.data, "catalogue file or folder read over the one in the program (may repeat)");
    bw::cli::add_survey(program);
    bw::cli::add_design(program);
    bw::cli::add_compare(program);
    bw::cli::add_reckon(program);
    bw::cli::add_catalogue(program);
    bw::cli::add_serve(program);
    try {
        return run(program, argc, argv);
    } catch (const std::exception& error) {
        fmt::print(stderr, "bankwright: internal error: {}\n", error.what());
        return bad_input;
    }
}
