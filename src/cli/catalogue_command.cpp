// SPDX-License-Identifier: MIT
#include <memory>

#include "catalogue/catalogue.h"
#include "cli/commands.h"
#include "cli/screen.h"
#include "units/printable.h"

namespace bw::cli {

namespace {

Outcome list(const Program& program) {
    const auto catalogue = catalogue::load(program.data);
    if (!catalogue) return tl::unexpected(catalogue.error());
    print("Heaters\n");
    for (const auto& h : catalogue->heaters)
        print("  {:<16} {:<44} {} to {}, {} to {}\n", h.key, h.title,
              units::print(units::amount(h.input_least), program.units),
              units::print(units::amount(h.input_greatest), program.units),
              units::print(units::amount(h.flow_least), program.units),
              units::print(units::amount(h.flow_greatest), program.units));
    print("Pipe and vent\n");
    for (const auto& p : catalogue->pipes)
        print("  {:<28} inside {}\n", p.key,
              units::print(units::amount(p.inside, units::Kind::small_length), program.units));
    print("Fittings, valves and the rest\n");
    for (const auto& i : catalogue->items) print("  {:<36} {}\n", i.key, i.title);
    return 0;
}

Outcome judge(const std::string& path) {
    if (auto ok = catalogue::check_file(path); !ok) return tl::unexpected(ok.error());
    print("{}: sound\n", units::printable(path));
    return 0;
}

}  // namespace

void add_catalogue(Program& program) {
    auto* command = program.app.add_subcommand("catalogue", "what can be bought: list it, or judge a file of it");
    command->require_subcommand(1);
    auto* listing = command->add_subcommand("list", "every heater, pipe and part");
    listing->callback([&program] { program.todo = [&program] { return list(program); }; });
    auto path = std::make_shared<std::string>();
    auto* check = command->add_subcommand("check", "judge a catalogue file, say a heater of your own maker");
    check->add_option("file", *path, "catalogue file")->required();
    check->callback([&program, path] { program.todo = [path] { return judge(*path); }; });
}

}  // namespace bw::cli
