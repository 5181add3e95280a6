// SPDX-License-Identifier: MIT
#pragma once
// A few threads that work off what is asked, so that however many ask, no more work at once.

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace bw::serve {

class Workers {
public:
    /// Threads are started when first wanted, `most` of them. Throws std::system_error where not even one can be had.
    explicit Workers(std::size_t most);
    ~Workers();
    Workers(const Workers&) = delete;
    Workers& operator=(const Workers&) = delete;

    /// Whatever a task throws ends the program: it is to catch what it can meet.
    void add(std::function<void()> task);
    /// Lets the tasks under way end; those that wait are dropped.
    void stop();

private:
    void work();

    std::mutex mutex_;
    std::condition_variable wake_;
    std::deque<std::function<void()>> tasks_;
    std::vector<std::thread> threads_;
    std::size_t most_, idle_ = 0;
    bool ending_ = false;
};

}  // namespace bw::serve
