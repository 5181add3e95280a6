// SPDX-License-Identifier: MIT
#pragma once
// Short names for the documents this room quotes, so that each rule names its clause in one word.

#include "reason/reason.h"

namespace bw::code {

[[nodiscard]] inline reason::Source ifgc(const char* clause, reason::Standing standing) {
    return {"IFGC", "2018", clause, standing};
}
[[nodiscard]] inline reason::Source nfpa54(const char* clause, reason::Standing standing) {
    return {"NFPA 54", "2018", clause, standing};
}
[[nodiscard]] inline reason::Source ipc(const char* clause, reason::Standing standing) {
    return {"IPC", "2018", clause, standing};
}
[[nodiscard]] inline reason::Source ibc(const char* clause, reason::Standing standing) {
    return {"IBC", "2018", clause, standing};
}
[[nodiscard]] inline reason::Source nec(const char* clause) {
    return {"NEC (NFPA 70)", "2017", clause, reason::Standing::memory};
}
[[nodiscard]] inline reason::Source practice() { return {"", "", "", reason::Standing::common_practice}; }

}  // namespace bw::code
