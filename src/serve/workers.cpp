// SPDX-License-Identifier: MIT
#include "serve/workers.h"

#include <system_error>

namespace bw::serve {

Workers::Workers(std::size_t most) : most_(most) {
    threads_.reserve(most_);
    threads_.emplace_back([this] { work(); });
}

Workers::~Workers() { stop(); }

void Workers::add(std::function<void()> task) {
    const std::lock_guard lock(mutex_);
    tasks_.push_back(std::move(task));
    if (idle_ < tasks_.size() && threads_.size() < most_) try {
            threads_.emplace_back([this] { work(); });
        } catch (const std::system_error&) {
            // those there are go on
        }
    wake_.notify_one();
}

void Workers::stop() {
    std::deque<std::function<void()>> dropped;
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
        dropped.swap(tasks_);
    }
    wake_.notify_all();
    for (auto& thread : threads_)
        if (thread.joinable()) thread.join();
}

void Workers::work() {
    std::unique_lock lock(mutex_);
    for (;;) {
        ++idle_;
        wake_.wait(lock, [this] { return ending_ || !tasks_.empty(); });
        --idle_;
        if (ending_) return;
        {
            const auto task = std::move(tasks_.front());
            tasks_.pop_front();
            lock.unlock();
            task();
        }
        lock.lock();
    }
}

}  // namespace bw::serve
