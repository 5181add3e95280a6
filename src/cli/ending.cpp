// SPDX-License-Identifier: MIT
#include "cli/ending.h"

#include <signal.h>

#include <thread>

#include "cli/unfinished.h"

namespace bw::cli {

namespace {

/// Those that would end the program; one that whoever started it wants ignored stays ignored.
sigset_t ending_signals() {
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGHUP, SIGINT, SIGTERM}) {
        struct sigaction now {};
        if (::sigaction(signal, nullptr, &now) == 0 && now.sa_handler == SIG_DFL) sigaddset(&ends, signal);
    }
    return ends;
}

void end_by(int signal, const sigset_t& ends) {
    abandon_unfinished();
    pthread_sigmask(SIG_UNBLOCK, &ends, nullptr);
    ::raise(signal);
}

}  // namespace

void end_on_signals() {
    const auto ends = ending_signals();
    pthread_sigmask(SIG_BLOCK, &ends, nullptr);  // those started from here inherit it
    std::thread([ends] {
        int signal = 0;
        if (sigwait(&ends, &signal) == 0) end_by(signal, ends);
    }).detach();
}

}  // namespace bw::cli
