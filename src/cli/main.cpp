// SPDX-License-Identifier: MIT
#include <signal.h>

#include <exception>
#include <sstream>

#include "cli/commands.h"
#include "cli/screen.h"
#include "units/printable.h"

namespace {

constexpr int bad_input = 1;

int help_or_version(const bw::cli::Program& program, const CLI::Success& asked) {
    std::ostringstream out;
    const int status = program.app.exit(asked, out, out);
    bw::cli::say(out.str());
    return status;
}

/// What the command line asks for; its failure is told already where the status says so.
int obey(bw::cli::Program& program, int argc, char** argv) {
    try {
        program.app.parse(argc, argv);
    } catch (const CLI::Success& asked) {
        return help_or_version(program, asked);
    } catch (const CLI::ParseError& error) {
        bw::cli::complain(
            fmt::format("bankwright: {} (bankwright --help lists the commands)", bw::units::printable(error.what())));
        return bad_input;
    }
    const auto outcome = program.todo();
    if (outcome) return *outcome;
    bw::cli::complain(bw::units::describe(outcome.error()));
    return bad_input;
}

int run(bw::cli::Program& program, int argc, char** argv) {
    const int status = obey(program, argc, argv);
    if (status == bad_input) return status;
    if (const auto whole = bw::cli::said(); !whole) {
        bw::cli::complain(bw::units::describe(whole.error()));
        return bad_input;
    }
    return status;
}

}  // namespace

int main(int argc, char** argv) {
    bw::cli::hold_standard_streams();
    ::signal(SIGXFSZ, SIG_IGN);  // a file grown too large is then an error of its writing
    bw::cli::Program program{
        "Bankwright: from a survey to a proved bank of gas-fired water heaters and everything needed to build it."};
    auto& app = program.app;
    app.name("bankwright");
    app.set_version_flag("--version", std::string("bankwright ") + BANKWRIGHT_VERSION);
    app.require_subcommand(1);
    app.fallthrough();
    bw::cli::add_choice<bw::units::System>(app, "--units", "units of what is printed: us (default) or si",
                                           {{"us", bw::units::System::us}, {"si", bw::units::System::si}},
                                           [&program](bw::units::System units) { program.units = units; });
    app.add_option("--data", program.data, "catalogue file or folder read over the one in the program (may repeat)");
    bw::cli::add_survey(program);
    bw::cli::add_design(program);
    bw::cli::add_compare(program);
    bw::cli::add_reckon(program);
    bw::cli::add_catalogue(program);
    bw::cli::add_checks(program);
    bw::cli::add_serve(program);
    try {
        return run(program, argc, argv);
    } catch (const std::exception& error) {
        bw::cli::complain(std::string("bankwright: internal error: ") + error.what());
        return bad_input;
    }
}
