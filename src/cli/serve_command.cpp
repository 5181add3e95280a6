// SPDX-License-Identifier: MIT
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cstdio>
#include <cstdlib>
#include <memory>

#include "cli/commands.h"
#include "cli/examples.h"
#include "serve/server.h"

namespace bw::cli {

namespace {

struct Wanted {
    serve::Options options;
    bool no_open = false;
};

/// Hands the address to the desktop, where there is one; says nothing where there is none.
void open_browser(const std::string& address) {
    if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return;
    const auto child = ::fork();
    if (child != 0) {
        if (child > 0) ::waitpid(child, nullptr, 0);
        return;
    }
    if (::fork() == 0) {  // nobody's child: it is not waited for
        const int nowhere = ::open("/dev/null", O_RDWR);
        for (const int stream : {0, 1, 2}) ::dup2(nowhere, stream);
        ::execlp("xdg-open", "xdg-open", address.c_str(), static_cast<char*>(nullptr));
    }
    ::_exit(0);
}

Outcome run(const Program& program, const Wanted& wanted) {
    const auto catalogue = catalogue::load(program.data);
    if (!catalogue) return tl::unexpected(catalogue.error());
    auto options = wanted.options;
    options.version = BANKWRIGHT_VERSION;
    options.examples = embedded_examples();
    options.page = embedded_page();
    const auto done = serve::serve(options, *catalogue, [&](const serve::Started& there) {
        if (!there.remark.empty()) fmt::print(stderr, "bankwright: {}\n", there.remark);
        fmt::print("bankwright: {}  (jobs in {}; Ctrl-C ends it)\n", there.address, there.jobs);
        std::fflush(stdout);
        if (!wanted.no_open) open_browser(there.address);
    });
    if (!done) return tl::unexpected(done.error());
    return 0;
}

}  // namespace

void add_serve(Program& program) {
    auto* command = program.app.add_subcommand("serve", "the page, in a browser on this computer");
    auto wanted = std::make_shared<Wanted>();
    command->add_option("--port", wanted->options.port, "port on 127.0.0.1 (default 8317; 0: any that is free)")
        ->check(CLI::Range(0, 65535));
    command->add_option("--jobs", wanted->options.jobs, "file the jobs are kept in (default: in your data folder)");
    command->add_flag("--no-open", wanted->no_open, "do not open a browser");
    command->callback([&program, wanted] { program.todo = [&program, wanted] { return run(program, *wanted); }; });
}

}  // namespace bw::cli
