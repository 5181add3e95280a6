// SPDX-License-Identifier: MIT
#pragma once
// What one open page of a job is sent.

#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>

#include "serve/view_parts.h"

namespace bw::serve {

struct Message {
    std::string event, data;
    ViewPtr view{};  ///< in place of data
};

/// What one open page is sent, in order. A newer view takes the place of one that was not fetched yet; after the first
/// a page is sent what is other in the next.
class Listener {
public:
    explicit Listener(units::System system) : system_(system) {}
    [[nodiscard]] units::System system() const { return system_; }
    void send(Message message);
    void end();
    /// The next message as it goes over the wire; empty after `wait` without one; nothing once ended.
    [[nodiscard]] std::optional<std::string> next(std::chrono::milliseconds wait);
    /// `ready` is called, from any thread, whenever there is something to fetch; empty: no more.
    void on_ready(std::function<void()> ready);

private:
    const units::System system_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::deque<Message> messages_;
    std::function<void()> ready_;
    ViewPtr sent_;  ///< what the page has
    bool ended_ = false;
};
using ListenerPtr = std::shared_ptr<Listener>;

}  // namespace bw::serve
