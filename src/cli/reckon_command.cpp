// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/commands.h"
#include "cli/screen.h"
#include "reckon/reckon.h"

namespace bw::cli {

namespace {

struct Asked {
    std::string topic;
    std::vector<std::string> arguments;
    bool json = false;
};

Outcome list_topics() {
    for (const auto& topic : reckon::topics()) print("{}\n", reckon::help(topic));
    return 0;
}

Outcome answer(const Program& program, const Asked& asked) {
    if (asked.topic.empty()) return list_topics();
    const auto catalogue = catalogue::load(program.data);
    if (!catalogue) return tl::unexpected(catalogue.error());
    std::vector<std::pair<std::string, std::string>> given;
    for (const auto& argument : asked.arguments) {
        auto pair = reckon::split_argument(argument);
        if (!pair) return tl::unexpected(pair.error());
        given.push_back(std::move(*pair));
    }
    const auto found = reckon::reckon(asked.topic, given, *catalogue);
    if (!found) return tl::unexpected(found.error());
    if (asked.json)
        print("{}\n", reckon::to_json(*found, program.units).dump(1));
    else
        say(reckon::print(*found, program.units));
    return 0;
}

}  // namespace

void add_reckon(Program& program) {
    auto* command =
        program.app.add_subcommand("reckon", "one calculation, with its working; without a topic, lists them");
    auto asked = std::make_shared<Asked>();
    command->add_option("topic", asked->topic, "what to calculate");
    command->add_option("given", asked->arguments, "name=value, quantities with their unit");
    command->add_flag("--json", asked->json, "print one JSON document");
    command->callback([&program, asked] { program.todo = [&program, asked] { return answer(program, *asked); }; });
}

}  // namespace bw::cli
