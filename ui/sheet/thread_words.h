// SPDX-License-Identifier: GPL-3.0-or-later
// The story of a sample in the words of the thread.
#pragma once

#include <vector>

#include "core/findings/finding.h"
#include "core/story/story.h"
#include "ui/kit/thread.h"

namespace prillbook::ui {

// The id of an entry is its place in `events`; findings that are open stand at the newest entry of their evidence, under
// the action "explain/<number of the finding>".
std::vector<ThreadEntry> thread_entries(const results::SampleRecord& record, const std::vector<story::Event>& events,
                                        const std::vector<findings::OpenOrAnswered>& findings);

}  // namespace prillbook::ui
