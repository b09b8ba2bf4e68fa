// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/program/sweep.h"

#include <QtCore/QMap>
#include <QtCore/QSet>
#include <QtGui/QAccessible>
#include <QtGui/QShortcut>
#include <QtTest/QTest>
#include <QtWidgets/QAbstractScrollArea>
#include <QtWidgets/QAbstractSlider>
#include <QtWidgets/QAbstractSpinBox>
#include <QtWidgets/QApplication>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QScrollBar>
#include <QtWidgets/QTextBrowser>
#include <QtWidgets/QToolButton>

#include "tests/support/keys.h"
#include "tests/support/window_hand.h"
#include "ui/kit/field.h"
#include "ui/kit/press_button.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/setup/setup_station.h"
#include "ui/sheet/sample_sheet.h"
#include "ui/window/way.h"

namespace prillbook::program {
namespace {

constexpr int rows_looked_at = 2;
constexpr int most_links = 60;  // of a text, each a stop of Tab

QString words_of(const QWidget* widget) {
  QString words = widget->accessibleName();
  if (const auto* button = qobject_cast<const QAbstractButton*>(widget)) words = button->text();
  if (const auto* label = qobject_cast<const QLabel*>(widget)) words = label->text();
  if (const auto* field = qobject_cast<const ui::Field*>(widget)) words = field->label();
  return QStringLiteral("%1 “%2”").arg(widget->metaObject()->className(), words.left(40));
}

// "PanStation › QWidget › PickField “Balance” › QLineEdit “Balance”", without the nameless ones between.
QString where(const QWidget* widget) {
  QStringList way;
  for (const QWidget* at = widget; at && !at->isWindow(); at = at->parentWidget())
    if (at == widget || QByteArray(at->metaObject()->className()).startsWith("prillbook")) way.prepend(words_of(at));
  return way.join(QStringLiteral(" › ")).replace(QStringLiteral("prillbook::ui::"), QString());
}

void settle() {
  QCoreApplication::processEvents();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  QCoreApplication::processEvents();
}

// Parts of a widget that are Qt's own business: the popup of a box, the line within it, scroll bars.
bool is_inner(const QWidget* widget) {
  if (qobject_cast<const QScrollBar*>(widget) || widget->focusProxy()) return true;
  for (const QWidget* at = widget->parentWidget(); at; at = at->parentWidget())
    if (qobject_cast<const QComboBox*>(at) || qobject_cast<const QAbstractSpinBox*>(at)) return true;
  return false;
}

bool takes_tab(const QWidget* widget) {
  return (widget->focusPolicy() & Qt::TabFocus) && widget->isVisible() && widget->isEnabled() && !is_inner(widget);
}

// Without a window manager the window can lose the keys to a page that is gone.
void focus_in(ui::MainWindow& window) {
  window.activateWindow();
  (void)QTest::qWaitForWindowActive(&window, 1000);
  if (!QApplication::focusWidget()) window.findChild<ui::WayStep*>()->setFocus();
}

QSet<QWidget*> tab_stops(const ui::MainWindow& window) {
  QSet<QWidget*> stops;
  for (QWidget* widget : window.findChildren<QWidget*>())
    if (takes_tab(widget) && widget->window() == &window) stops.insert(widget);
  return stops;
}

bool in_scroll_area(const QWidget* widget) {
  for (const QWidget* at = widget->parentWidget(); at; at = at->parentWidget())
    if (qobject_cast<const QAbstractScrollArea*>(at)) return true;
  return false;
}

bool says_something(const QWidget* widget) {
  if (const auto* label = qobject_cast<const QLabel*>(widget)) return !label->text().isEmpty();
  if (const auto* button = qobject_cast<const QAbstractButton*>(widget)) return !button->text().isEmpty();
  if (const auto* line = qobject_cast<const QLineEdit*>(widget)) return !line->displayText().isEmpty();
  return qobject_cast<const QComboBox*>(widget) != nullptr;
}

QColor most_common(const QImage& picture) {
  QMap<QRgb, int> counts;
  for (int y = 0; y < picture.height(); ++y)
    for (int x = 0; x < picture.width(); ++x) ++counts[picture.pixel(x, y)];
  QRgb most = 0;
  for (auto it = counts.cbegin(); it != counts.cend(); ++it)
    if (it.value() > counts.value(most)) most = it.key();
  return QColor(most);
}

// What Alt and a letter press: the words with "&".
QKeySequence mnemonic_of(const QWidget* widget) {
  if (const auto* label = qobject_cast<const QLabel*>(widget); label && label->buddy())
    return QKeySequence::mnemonic(label->text());
  return {};
}

void look_at_rows(ui::MainWindow& window, const QString& name, const Look& look) {
  QWidget* station = window.current();
  const auto unfold = [station] {
    for (auto* fold : station->findChildren<ui::Fold*>()) fold->set_open(true);
    settle();
  };
  unfold();
  look(window, name);
  for (auto* list : station->findChildren<ui::WaitingList*>()) {
    if (!list->isVisible()) continue;
    const int rows = qobject_cast<ui::SetupStation*>(station) ? list->model()->rowCount() : rows_looked_at;
    for (int row = 1; row < std::min(list->model()->rowCount(), rows); ++row) {
      list->setCurrentIndex(list->model()->index(row, 0));
      unfold();
      look(window, QStringLiteral("%1, row %2").arg(name).arg(row));
    }
  }
}

}  // namespace

void go_round(ui::MainWindow& window, const Look& look) {
  const auto steps = window.findChildren<ui::WayStep*>();
  for (int place = 0; place < steps.size(); ++place) {
    window.go_to(std::size_t(place));
    settle();
    look_at_rows(window, steps[place]->text(), look);
  }
  for (const int sample : {1, 3}) {
    window.open({history::Entity::sample, sample});
    settle();
    look(window, QStringLiteral("Sheet %1").arg(sample));
  }
  auto* sheet = window.findChild<ui::SampleSheet*>();
  emit sheet->labels_requested({history::Entity::sample, 1});
  settle();
  look(window, QStringLiteral("Labels"));
  emit sheet->guide_requested(QStringLiteral("receiving"));
  settle();
  look(window, QStringLiteral("Guide"));
  window.go_to(0);
}

QStringList without_name(const ui::MainWindow& window) {
  QStringList found;
  for (QWidget* widget : window.findChildren<QWidget*>()) {
    const bool of_qt = is_inner(widget) || widget->objectName() == "qt_scrollarea_viewport";
    const auto* label = qobject_cast<QLabel*>(widget);
    if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisible() || of_qt || (label && label->text().isEmpty())) continue;
    const QAccessibleInterface* told = QAccessible::queryAccessibleInterface(widget);
    if (told && told->text(QAccessible::Name).trimmed().isEmpty()) found << where(widget);
  }
  return found;
}

QStringList not_reached_by_tab(ui::MainWindow& window) {
  testing_support::window_in_hand() = &window;
  focus_in(window);
  QWidget* at = testing_support::at_hand();
  if (!at) return {QStringLiteral("nothing takes the focus")};
  QList<QWidget*> way;
  QSet<QWidget*> left = tab_stops(window);
  for (int presses = 0, stayed = 0; presses < 3 * tab_stops(window).size() + most_links && !left.isEmpty(); ++presses) {
    way << at;
    left.remove(at);
    QTest::keyClick(at, Qt::Key_Tab);
    QWidget* next = testing_support::at_hand();
    stayed = next == at ? stayed + 1 : 0;
    if (!next || stayed > (qobject_cast<QTextBrowser*>(at) ? most_links : 0))
      return {QStringLiteral("does not leave ") + where(at)};
    at = next;
  }
  left.intersect(tab_stops(window));  // what came or went on the way is no fault of Tab
  if (left.isEmpty()) return {};
  QStringList round, missed;
  for (const QWidget* widget : way.mid(way.lastIndexOf(at))) round << where(widget);
  for (const QWidget* widget : left) missed << where(widget);
  return {QStringLiteral("goes round (%1) and does not come to %2").arg(round.join(" → "), missed.mid(0, 3).join(", "))};
}

QStringList turned_by_wheel(const ui::MainWindow& window) {
  QStringList found;
  for (auto* box : window.findChildren<QComboBox*>()) {
    if (box->count() < 2 || box->hasFocus()) continue;
    const QSignalBlocker silent(box);
    const int before = box->currentIndex();
    box->setCurrentIndex(1);
    testing_support::turn_wheel(box);
    if (box->currentIndex() != 1) found << where(box);
    box->setCurrentIndex(before);
  }
  for (auto* box : window.findChildren<QAbstractSpinBox*>()) {
    const QString before = box->text();
    testing_support::turn_wheel(box);
    if (box->text() != before) found << where(box);
  }
  for (auto* slider : window.findChildren<QAbstractSlider*>()) {
    if (qobject_cast<QScrollBar*>(slider)) continue;
    const int before = slider->value();
    testing_support::turn_wheel(slider);
    if (slider->value() != before) found << where(slider);
  }
  return found;
}

QStringList keys_given_twice(const ui::MainWindow& window) {
  QMap<QString, QStringList> owners;
  const auto give = [&](const QKeySequence& keys, const QString& owner) {
    if (!keys.isEmpty()) owners[keys.toString()] << owner;
  };
  for (const auto* shortcut : window.findChildren<QShortcut*>()) {
    const auto* parent = qobject_cast<QWidget*>(shortcut->parent());
    if (shortcut->isEnabled() && parent && parent->isVisible()) give(shortcut->key(), where(parent));
  }
  for (const auto* widget : window.findChildren<QWidget*>()) {
    if (!widget->isVisible() || !widget->isEnabled()) continue;
    if (const auto* button = qobject_cast<const QAbstractButton*>(widget)) give(button->shortcut(), where(button));
    give(mnemonic_of(widget), where(widget));
  }
  QStringList found;
  for (auto it = owners.cbegin(); it != owners.cend(); ++it)
    if (it.value().size() > 1) found << it.key() + QStringLiteral(": ") + it.value().join(QStringLiteral(" and "));
  return found;
}

// WCAG 2.1, success criterion 1.4.3: text and its ground at least 4.5:1.
QStringList too_faint(ui::MainWindow& window) {
  QStringList found;
  const QImage picture = window.grab().toImage();
  for (QWidget* widget : window.findChildren<QWidget*>()) {
    if (!widget->isVisible() || !says_something(widget) || is_inner(widget) || qobject_cast<ui::WayStep*>(widget)) continue;
    const QRect part = QRect(widget->mapTo(&window, QPoint()), widget->size()) & picture.rect();
    if (2 * widget->visibleRegion().boundingRect().height() < widget->height() || part.isEmpty()) continue;
    const QColor ground = most_common(picture.copy(part));
    const double ratio = ui::contrast(widget->palette().color(widget->foregroundRole()), ground);
    if (ratio < 4.5) found << QStringLiteral("%1 (%2:1 on %3)").arg(where(widget)).arg(ratio, 0, 'f', 1).arg(ground.name());
  }
  return found;
}

QStringList cut_off(const ui::MainWindow& window) {
  QStringList found;
  for (QWidget* widget : window.findChildren<QWidget*>()) {
    if (!widget->isVisible() || widget->window() != &window || in_scroll_area(widget) || is_inner(widget)) continue;
    if (!says_something(widget) && !takes_tab(widget)) continue;
    const QRect place(widget->mapTo(&window, QPoint()), widget->size());
    const QSize least = widget->minimumSizeHint();
    const bool too_small = widget->width() < least.width() || widget->height() < least.height();
    if (too_small || !window.rect().contains(place))
      found << QStringLiteral("%1 at %2,%3 %4×%5, wants %6×%7")
                   .arg(where(widget))
                   .arg(place.x())
                   .arg(place.y())
                   .arg(place.width())
                   .arg(place.height())
                   .arg(least.width())
                   .arg(least.height());
  }
  return found;
}

}  // namespace prillbook::program
