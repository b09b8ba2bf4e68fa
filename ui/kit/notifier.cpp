// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/notifier.h"

#include <QtCore/QPointer>

namespace prillbook::ui {

Notifier::Notifier(history::Journal& journal, QObject* parent) : QObject(parent) {
  journal.listen([alive = QPointer<Notifier>(this)](const history::Written& change_set) {
    if (alive) emit alive->written(change_set);
  });
}

}  // namespace prillbook::ui
