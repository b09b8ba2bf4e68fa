// SPDX-License-Identifier: GPL-3.0-or-later
// Words, whole numbers, times, and one of a long list.
#include <QtCore/QCoreApplication>
#include <QtCore/QStringListModel>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QAbstractItemView>
#include <QtWidgets/QCompleter>
#include <QtWidgets/QLineEdit>
#include <charconv>

#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// Enter and Tab on the open list are those of the field: they take the chosen words, or what was typed, and move on.
class KeysOnList : public QObject {
 public:
  KeysOnList(QCompleter& completer, LineField& field) : QObject(&completer), completer_(completer), field_(field) {}

  bool eventFilter(QObject*, QEvent* event) override {
    if (event->type() != QEvent::KeyPress) return false;
    const auto& pressed = *static_cast<QKeyEvent*>(event);
    static const QList<int> leaving{Qt::Key_Return, Qt::Key_Enter, Qt::Key_Tab, Qt::Key_Backtab};
    if (!leaving.contains(pressed.key())) return false;
    const QModelIndex chosen = completer_.popup()->currentIndex();
    completer_.popup()->hide();
    if (chosen.isValid()) field_.type(chosen.data().toString());
    QKeyEvent of_field(QEvent::KeyPress, pressed.key(), pressed.modifiers());
    QCoreApplication::sendEvent(field_.line(), &of_field);
    return true;
  }

 private:
  QCompleter& completer_;
  LineField& field_;
};

}  // namespace

void TextField::set_value(const std::optional<std::string>& value) { show_accepted(value ? to_qt(*value) : QString()); }

Result<void> TextField::write(const QString& text, QString&) {
  if (!commit_) return {};
  return commit_(text.isEmpty() ? std::nullopt : std::optional(to_core(text)));
}

WholeField::WholeField(const QString& label, std::int64_t least, QWidget* parent) : LineField(label, parent), least_(least) {
  set_width_in_digits(8);
}

void WholeField::set_value(std::optional<std::int64_t> value) { show_accepted(value ? QString::number(*value) : QString()); }

Result<void> WholeField::write(const QString& text, QString& shown) {
  if (text.isEmpty()) return commit_ ? commit_(std::nullopt) : Result<void>{};
  const std::string typed = to_core(text);
  std::int64_t value = 0;
  const auto parsed = std::from_chars(typed.data(), typed.data() + typed.size(), value);
  if (parsed.ec == std::errc::result_out_of_range) return Error{ErrorCode::not_finite, "", "the number is too large", {typed}};
  if (parsed.ec != std::errc{} || parsed.ptr != typed.data() + typed.size())
    return Error{ErrorCode::not_a_number, "", "no whole number", {typed}};
  if (value < least_) return Error{ErrorCode::out_of_range, "", "the number is too small", {typed}};
  shown = QString::number(value);
  return commit_ ? commit_(value) : Result<void>{};
}

DateTimeField::DateTimeField(const QString& label, Clock& clock, QWidget* parent) : LineField(label, parent), clock_(clock) {
  set_width_in_digits(22);
}

void DateTimeField::set_value(std::optional<Instant> value) { show_accepted(value ? date_time_text(*value) : QString()); }

Result<void> DateTimeField::write(const QString& text, QString& shown) {
  if (text.isEmpty()) return commit_ ? commit_(std::nullopt) : Result<void>{};
  PRILLBOOK_ASSIGN(const Instant when, parse_local_time(text, clock_.now()));
  shown = date_time_text(when);
  return commit_ ? commit_(when) : Result<void>{};
}

PickField::PickField(const QString& label, QWidget* parent)
    : LineField(label, parent), words_(new QStringListModel(this)) {
  auto* completer = new QCompleter(words_, line());
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  completer->popup()->setProperty("floating", true);
  completer->popup()->setFont(face(TextSize::body));
  line()->setCompleter(completer);
  completer->popup()->installEventFilter(new KeysOnList(*completer, *this));
}

// The words may come anew while the list is open: it stays, an entry may be on its way through it.
void PickField::set_items(std::vector<Item> items) {
  items_ = std::move(items);
  QStringList words;
  for (const Item& item : items_) words << item.words;
  if (words != words_->stringList()) words_->setStringList(words);
}

void PickField::set_value(std::optional<std::int64_t> id) {
  for (const Item& item : items_)
    if (id == item.id) return show_accepted(item.words);
  show_accepted(QString());
}

Result<void> PickField::write(const QString& text, QString& shown) {
  if (text.isEmpty()) return commit_ ? commit_(std::nullopt) : Result<void>{};
  std::vector<const Item*> fitting;
  for (const Item& item : items_) {
    if (item.words.compare(text, Qt::CaseInsensitive) == 0) {
      fitting = {&item};
      break;
    }
    if (item.words.startsWith(text, Qt::CaseInsensitive)) fitting.push_back(&item);
  }
  if (fitting.size() > 1) return Error{ErrorCode::ambiguous, "", "fits several", {to_core(text)}};
  if (fitting.empty() && !make_) return Error{ErrorCode::not_found, "", "fits none", {to_core(text)}};
  if (!fitting.empty()) {
    shown = fitting.front()->words;
    return commit_ ? commit_(fitting.front()->id) : Result<void>{};
  }
  PRILLBOOK_ASSIGN(const std::int64_t made, make_(to_core(text)));
  return commit_ ? commit_(made) : Result<void>{};
}

}  // namespace prillbook::ui
