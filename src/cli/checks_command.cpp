// SPDX-License-Identifier: MIT
#include "cli/commands.h"
#include "cli/screen.h"
#include "reason/register/register.h"

namespace bw::cli {

void add_checks(Program& program) {
    auto* command = program.app.add_subcommand("checks", "every check that is made, as the page docs/checks.md");
    command->callback([&program] {
        program.todo = [] {
            print("{}", reason::register_page());
            return Outcome(0);
        };
    });
}

}  // namespace bw::cli
