// SPDX-License-Identifier: MIT
#include "cli/screen.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

namespace bw::cli {

namespace {

int first_failure = 0;  ///< errno

void note_failure() {
    if (first_failure == 0) first_failure = errno != 0 ? errno : EIO;
}

}  // namespace

void hold_standard_streams() {
    // opened the wrong way round: what is read from a closed output, or written to a closed input, fails
    for (const int stream : {0, 1, 2})
        if (::fcntl(stream, F_GETFD) < 0) (void)::open("/dev/null", stream == 0 ? O_WRONLY : O_RDONLY);
}

void say(std::string_view text) {
    errno = 0;
    if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size()) note_failure();
}

bw::Result<void> said() {
    errno = 0;
    if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) note_failure();
    if (first_failure == 0) return {};
    return fail(std::string("cannot be written: ") + std::strerror(first_failure), {}, {"standard output", 0, 0});
}

void complain(std::string_view line) {
    const auto whole = std::string(line) + '\n';
    std::fwrite(whole.data(), 1, whole.size(), stderr);
}

}  // namespace bw::cli
