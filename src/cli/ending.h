// SPDX-License-Identifier: MIT
#pragma once

namespace bw::cli {

/// From here on a hang-up, Ctrl-C or a request to end takes away the package that is being written, then ends the
/// program by that signal. To be called before the first thread is started.
void end_on_signals();

}  // namespace bw::cli
