// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/copies_page.h"

#include <QtCore/QThread>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <filesystem>
#include <memory>

#include "core/upkeep/restore.h"
#include "core/upkeep/sealed.h"
#include "ui/kit/bench.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/upkeep/copy_keeper.h"
#include "ui/upkeep/copy_words.h"

namespace prillbook::ui {
namespace {

QLabel* words(const char* tone = nullptr) {
  auto* label = new QLabel;
  label->setFont(face(TextSize::body));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  if (tone) label->setProperty("tone", tone);
  return label;
}

}  // namespace

CopiesPage::CopiesPage(Session& session, CopyKeeper& keeper, QWidget* parent)
    : QWidget(parent),
      session_(session),
      keeper_(keeper),
      head_(new Headline),
      list_(new WaitingList(tr("Copies of the notebook"))),
      first_(place_field(tr("Copies go to"), to_qt(upkeep::usual_copy_place(to_core(keeper.notebook()))),
                         &upkeep::CopyPlaces::first)),
      second_(place_field(tr("and also to"), tr("a stick or another disk; may be missing now and then"),
                          &upkeep::CopyPlaces::second)),
      take_(new PressButton(tr("Take a copy now"))),
      salvage_(new PressButton(tr("Save what reads…"), PressButton::Rank::main)),
      another_(new PressButton(tr("Another file…"))),
      copy_head_(new Headline),
      passphrase_(new TextField(tr("Passphrase of this copy"))),
      holds_(words()),
      parts_(words()),
      newest_(words("quiet")),
      news_(new MessageBar),
      restore_(new PressButton(tr("Put it in the place of the notebook…"), PressButton::Rank::main)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 2 * rhythm, 0, 0);
  whole->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(3 * rhythm, 0, 3 * rhythm, 0);
  top->setSpacing(rhythm);
  top->addWidget(head_, 1);
  top->addWidget(salvage_, 0, Qt::AlignTop);
  top->addWidget(another_, 0, Qt::AlignTop);
  top->addWidget(take_, 0, Qt::AlignTop);
  whole->addLayout(top);
  whole->addWidget(build_places());
  whole->addWidget(hairline());
  list_->set_empty_words(tr("No copy yet. The first is taken soon after the notebook is opened."));
  whole->addWidget(new Bench(list_, build_in_hand()), 1);
  connect(list_, &WaitingList::taken, this, &CopiesPage::take);
  connect(list_, &WaitingList::opened, this, [this](RecordId) { restore_->setFocus(); });
  connect(take_, &QPushButton::clicked, &keeper_, &CopyKeeper::take_now);
  connect(another_, &QPushButton::clicked, this, &CopiesPage::choose_another);
  connect(salvage_, &QPushButton::clicked, this, &CopiesPage::salvage_wanted);
  connect(restore_, &QPushButton::clicked, this, &CopiesPage::ask_to_restore);
  connect(&keeper_, &CopyKeeper::changed, this, [this] {
    if (isVisible()) refresh();
  });
  passphrase_->line()->setEchoMode(QLineEdit::Password);
  passphrase_->on_commit([this](const std::optional<std::string>& typed) -> Result<void> {
    if (typed) look(*typed);
    return {};
  });
  const bool writes = !session_.read_only();
  for (QWidget* widget : {static_cast<QWidget*>(take_), static_cast<QWidget*>(restore_)}) widget->setEnabled(writes);
  refresh();
}

CopiesPage::~CopiesPage() {
  if (worker_) {
    worker_->wait();
    delete worker_;
  }
  forget_opened();
}

TextField* CopiesPage::place_field(const QString& label, const QString& hint, std::string upkeep::CopyPlaces::*place) {
  auto* field = new TextField(label);
  field->set_hint(hint);
  const std::string& now = keeper_.places().*place;
  field->set_value(now.empty() ? std::nullopt : std::optional(now));
  field->on_commit([this, place](const std::optional<std::string>& typed) -> Result<void> {
    std::error_code code;
    if (typed && !std::filesystem::is_directory(*typed, code))
      return Error{ErrorCode::not_found, "place", "there is no such folder", {*typed}};
    upkeep::CopyPlaces places = keeper_.places();
    places.*place = typed.value_or("");
    keeper_.set_places(places);
    return {};
  });
  return field;
}

QWidget* CopiesPage::build_places() {
  auto* part = new QWidget;
  auto* row = new QHBoxLayout(part);
  row->setContentsMargins(3 * rhythm, 0, 3 * rhythm, 0);
  row->setSpacing(2 * rhythm);
  for (TextField* field : {first_, second_}) {
    auto* choose = new PressButton(tr("Choose…"));
    choose->setAccessibleName(tr("Choose the folder: %1").arg(field->label()));
    connect(choose, &QPushButton::clicked, this, [this, field] {
      session_.prompter.choose_file({FilePurpose::folder, tr("Folder of copies"), {}, {}}, [field](const QString& folder) {
        field->type(folder);
        field->commit();
      });
    });
    row->addWidget(field, 1);
    row->addWidget(choose, 0, Qt::AlignVCenter);
  }
  return part;
}

QWidget* CopiesPage::build_in_hand() {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2 * rhythm);
  column->addWidget(copy_head_);
  column->addWidget(hairline());
  for (QWidget* widget : {static_cast<QWidget*>(news_), static_cast<QWidget*>(passphrase_), static_cast<QWidget*>(holds_),
                          static_cast<QWidget*>(parts_), static_cast<QWidget*>(newest_)})
    column->addWidget(widget);
  column->addWidget(restore_, 0, Qt::AlignLeft);
  column->addStretch();
  return hand;
}

void CopiesPage::enter() {
  refresh();
  list_->setFocus();
}

void CopiesPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
}

void CopiesPage::refresh() {
  copies_ = upkeep::all_copies(to_core(keeper_.notebook()), keeper_.places());
  list_->read_from([this](int from, int count) {
    std::vector<WaitingRow> rows;
    for (std::size_t i = std::size_t(from); i < copies_.size() && int(rows.size()) < count; ++i)
      rows.push_back({RecordId(i) + 1,
                      taken_words(copies_[i]),
                      {},
                      tr("%1, %2").arg(kind_words(copies_[i].kind), size_words(copies_[i].bytes))});
    return rows;
  });
  if (in_hand_) {
    for (std::size_t i = 0; i < copies_.size(); ++i)
      if (copies_[i].path == in_hand_->path) list_->take(RecordId(i) + 1);
  } else if (!copies_.empty()) {
    list_->take(1);
    take(1);
  }
  show_state();
  show_look();
}

void CopiesPage::show_state() {
  take_->setEnabled(!session_.read_only() && !keeper_.taking());
  const auto& last = keeper_.last();
  salvage_->setVisible(last && !last->ok() && last->error().code == ErrorCode::damaged);
  QString state = copies_.empty() ? tr("none yet") : tr("the newest is of %1").arg(taken_words(copies_.front()));
  if (keeper_.taking())
    state = tr("one is being taken …");
  else if (last && !last->ok())
    state = tr("the last one failed: %1").arg(sentence(last->error()));
  else if (last && (*last)->second_fault)
    state += tr("; the second place is not there");
  head_->set(tr("Copies"), state);
}

void CopiesPage::take(RecordId number) {
  if (number < 1 || number > RecordId(copies_.size())) return;
  in_hand_ = copies_[std::size_t(number) - 1];
  look_.reset();
  passphrase_->set_value(std::nullopt);
  if (in_hand_->kind == upkeep::CopyKind::sealed)
    show_look();
  else
    look({});
}

void CopiesPage::choose_another() {
  session_.prompter.choose_file({FilePurpose::open, tr("A copy of the notebook"), tr("All files (*)"), {}},
                                [this](const QString& path) {
                                  upkeep::Copy copy;
                                  copy.path = to_core(path);
                                  copy.kind = upkeep::is_sealed(copy.path) ? upkeep::CopyKind::sealed : upkeep::CopyKind::taken;
                                  std::error_code code;
                                  copy.bytes = std::int64_t(std::filesystem::file_size(copy.path, code));
                                  copies_.insert(copies_.begin(), copy);
                                  list_->refresh();
                                  list_->take(1);
                                  take(1);
                                });
}

// Opening a sealed copy takes a second by design, and a copy may hold a million entries: both happen beside.
void CopiesPage::look(std::string passphrase) {
  if (worker_ || !in_hand_) return;
  forget_opened();
  auto outcome = std::make_shared<std::optional<Result<Look>>>();
  worker_ =
      QThread::create([outcome, notebook = to_core(keeper_.notebook()), copy = *in_hand_, passphrase = std::move(passphrase)] {
        const auto taken = [&]() -> Result<Look> {
          Look look;
          look.opened = copy.path;
          if (copy.kind == upkeep::CopyKind::sealed) {
            PRILLBOOK_ASSIGN(look.opened, upkeep::open_sealed_copy(notebook, copy.path, passphrase));
          }
          PRILLBOOK_ASSIGN(const auto here, store::Connection::open(notebook, store::Access::read_only));
          PRILLBOOK_ASSIGN(const auto held, store::Connection::open(look.opened, store::Access::read_only));
          PRILLBOOK_ASSIGN(look.holds, upkeep::what_it_holds(*held));
          PRILLBOOK_ASSIGN(look.difference, upkeep::difference(*here, *held));
          return look;
        };
        outcome->emplace(taken());
      });
  connect(worker_, &QThread::finished, this, [this, outcome, of = in_hand_->path] {
    worker_->deleteLater();
    worker_ = nullptr;
    if (in_hand_ && in_hand_->path == of) return end_look(**outcome);
    if (in_hand_ && in_hand_->kind != upkeep::CopyKind::sealed) look({});
  });
  worker_->start();
  show_look();
}

void CopiesPage::end_look(const Result<Look>& look) {
  if (look) {
    look_ = *look;
    if (in_hand_->kind == upkeep::CopyKind::sealed) opened_ = look_->opened;
    show_look();
  } else {
    show_look();
    if (in_hand_->kind == upkeep::CopyKind::sealed && look.error().code == ErrorCode::conflict)
      news_->stop(tr("This passphrase does not open it."));
    else
      news_->refused(look.error());
    news_->show();
  }
  emit looked();
}

QString CopiesPage::difference_words() const { return look_ ? parts_->text() : QString(); }

void CopiesPage::show_look() {
  const bool sealed = in_hand_ && in_hand_->kind == upkeep::CopyKind::sealed;
  copy_head_->set(in_hand_ ? taken_words(*in_hand_) : tr("No copy in hand"),
                  in_hand_ ? in_short(to_qt(in_hand_->path), 90) : tr("take one from the list"));
  passphrase_->setVisible(sealed && !look_);
  for (QWidget* widget : {static_cast<QWidget*>(holds_), static_cast<QWidget*>(parts_), static_cast<QWidget*>(newest_),
                          static_cast<QWidget*>(restore_)})
    widget->setVisible(look_.has_value());
  news_->say(worker_ ? tr("Looking into it …") : QString());
  news_->setVisible(worker_ != nullptr);
  if (!look_) return;
  holds_->setText(holds_words(look_->holds));
  parts_->setText(ui::difference_words(look_->difference));
  newest_->setText(newest_words(look_->difference.only_here));
  newest_->setVisible(look_->difference.related() && look_->difference.only_here.entries > 0);
  restore_->setEnabled(!session_.read_only() && !look_->difference.same());
}

void CopiesPage::ask_to_restore() {
  if (!look_ || !in_hand_) return;
  Decision decision;
  decision.words = tr("Put the copy of %1 in the place of the notebook?").arg(taken_words(*in_hand_));
  decision.more =
      tr("%1\nThe notebook of now is kept beside it, as %2.")
          .arg(parts_->text(), QString::fromStdString(std::filesystem::path(upkeep::replaced_name(to_core(keeper_.notebook()),
                                                                                                  session_.journal.clock().now()))
                                                          .filename()
                                                          .string()));
  decision.answers = {tr("Put it there"), tr("Leave it as it is")};
  decision.safe = 1;
  session_.prompter.decide(decision, [this, opened = look_->opened](int answer) {
    if (answer != 0) return;
    opened_.clear();  // whoever restores it lets it go afterwards
    emit restore_wanted(to_qt(opened));
  });
}

void CopiesPage::forget_opened() {
  if (!opened_.empty()) store::discard(opened_);
  opened_.clear();
}

}  // namespace prillbook::ui
