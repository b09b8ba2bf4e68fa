// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/lab/lab.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

// Who has said that they work; none where nobody has, or where the initials are of nobody in the list.
inline PersonId worker(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

}  // namespace prillbook::ui
