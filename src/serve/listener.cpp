// SPDX-License-Identifier: MIT
#include "serve/listener.h"

#include <algorithm>
#include <utility>

namespace bw::serve {
namespace {

constexpr std::size_t most_messages = 64;

}  // namespace

void Listener::on_ready(std::function<void()> ready) {
    const std::lock_guard lock(mutex_);
    ready_ = std::move(ready);
}

void Listener::send(Message message) {
    std::function<void()> ready;
    {
        const std::lock_guard lock(mutex_);
        if (message.view || message.event == "failed")
            std::erase_if(messages_, [](const Message& m) { return m.event != "job"; });
        if (message.event == "working") std::erase_if(messages_, [](const Message& m) { return m.event == "working"; });
        if (messages_.size() >= most_messages) messages_.pop_front();
        messages_.push_back(std::move(message));
        ready = ready_;
    }
    wake_.notify_one();
    if (ready) ready();
}

void Listener::end() {
    std::function<void()> ready;
    {
        const std::lock_guard lock(mutex_);
        ended_ = true;
        ready = ready_;
    }
    wake_.notify_all();
    if (ready) ready();
}

std::optional<std::string> Listener::next(std::chrono::milliseconds wait) {
    std::unique_lock lock(mutex_);
    wake_.wait_for(lock, wait, [this] { return ended_ || !messages_.empty(); });
    if (ended_) return std::nullopt;
    if (messages_.empty()) return std::string();
    auto message = std::move(messages_.front());
    messages_.pop_front();
    const auto before = message.view ? std::exchange(sent_, message.view) : nullptr;
    lock.unlock();
    if (message.view) {
        message.event = before ? "change" : "view";
        message.data = before ? change(*before, *message.view) : full(*message.view);
    }
    return "event: " + message.event + "\ndata: " + message.data + "\n\n";
}

}  // namespace bw::serve
