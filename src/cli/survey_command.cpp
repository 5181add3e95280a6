// SPDX-License-Identifier: MIT
#include "survey/survey.h"

#include <memory>

#include "cli/commands.h"
#include "cli/output.h"
#include "cli/screen.h"
#include "units/printable.h"

namespace bw::cli {

namespace {

Outcome write_starter(const std::string& path) {
    if (auto ok = write_new_file(path, survey::starter()); !ok) return tl::unexpected(ok.error());
    print("{0}: a starter, invented for the demo; change it to your job, then run: bankwright design {0}\n",
          units::printable(path));
    return 0;
}

Outcome judge(const std::string& path) {
    const auto survey = survey::read(path);
    if (!survey) return tl::unexpected(survey.error());
    print("{}: sound\n", units::printable(path));
    if (survey->assumed.empty()) return 0;
    print("Assumed, to be confirmed on site (* bears on safety):\n");
    for (const auto& a : survey->assumed) print("{} {} = {}  ({})\n", a.safety ? '*' : ' ', a.field, a.value, a.why);
    return 0;
}

}  // namespace

void add_survey(Program& program) {
    auto* survey = program.app.add_subcommand("survey", "write a starter survey, or judge one");
    survey->require_subcommand(1);
    auto path = std::make_shared<std::string>();
    auto* fresh = survey->add_subcommand("new", "write a commented starter");
    fresh->add_option("file", *path, "file to write; must not exist")->required();
    fresh->callback([&program, path] { program.todo = [path] { return write_starter(*path); }; });
    auto* check = survey->add_subcommand("check", "judge a survey and list what it leaves to be assumed");
    check->add_option("file", *path, "survey file")->required();
    check->callback([&program, path] { program.todo = [path] { return judge(*path); }; });
}

}  // namespace bw::cli
