// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/printing/labels_page.h"

#include <QtCore/QSettings>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/paper/label_sheet.h"
#include "ui/printing/sheet_picture.h"

namespace prillbook::ui {
namespace {

using labels::LabelKind;

constexpr const char* last_layout = "labels/layout";
constexpr const char* first_layout = "a4-3x8";
constexpr LabelKind all_kinds[] = {LabelKind::bag, LabelKind::portion, LabelKind::charge, LabelKind::reject,
                                   LabelKind::lead_waste};

QString words_of_kind(LabelKind kind) {
  switch (kind) {
    case LabelKind::bag: return LabelsPage::tr("bags");
    case LabelKind::portion: return LabelsPage::tr("portions");
    case LabelKind::charge: return LabelsPage::tr("charges");
    case LabelKind::reject: return LabelsPage::tr("rejects and what is kept");
    case LabelKind::lead_waste: return LabelsPage::tr("lead waste: cupels, slag, pots");
  }
  return {};
}

QLabel* part_heading(const QString& words) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::small));
  label->setProperty("tone", "quiet");
  return label;
}

}  // namespace

LabelsPage::LabelsPage(Session& session, Printing printing, QWidget* parent)
    : PrintPage(session, std::move(printing), parent),
      layouts_(new QListWidget),
      sheet_(new SheetPicture),
      start_words_(new QLabel) {
  build_kinds();
  build_sheets();
  tab_on_from(sheet_);
  connect(&session.notifier, &Notifier::written, this, [this] {
    if (isVisible()) changed();
  });
}

void LabelsPage::build_kinds() {
  choices()->addWidget(part_heading(tr("Which labels")));
  for (const LabelKind kind : all_kinds) {
    auto* box = new QCheckBox(words_of_kind(kind));
    box->setFont(face(TextSize::body));
    connect(box, &QCheckBox::toggled, this, &LabelsPage::changed);
    boxes_[kind] = box;
    choices()->addWidget(box);
  }
}

void LabelsPage::build_sheets() {
  auto* sheets = part_heading(tr("On which sheet"));
  layouts_->setAccessibleName(tr("On which sheet"));
  layouts_->setFrameShape(QFrame::NoFrame);
  layouts_->setFont(face(TextSize::body));
  layouts_->setFixedHeight(16 * rhythm);
  layouts_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  for (const labels::Layout& layout : labels::layouts())
    (new QListWidgetItem(to_qt(layout.title), layouts_))->setSizeHint({0, 4 * rhythm});
  const std::string last = to_core(QSettings().value(last_layout, QLatin1String(first_layout)).toString());
  int row = 0;
  for (int i = 0; i < layouts_->count(); ++i)
    if (labels::layouts()[std::size_t(i)].name == last) row = i;
  layouts_->setCurrentRow(row);
  connect(layouts_, &QListWidget::currentRowChanged, this, [this] {
    QSettings().setValue(last_layout, to_qt(layout_in_hand().name));
    changed();
  });
  choices()->addSpacing(rhythm);
  choices()->addWidget(sheets);
  choices()->addWidget(layouts_);
  choices()->addSpacing(rhythm);
  choices()->addWidget(part_heading(tr("Where the first one goes: arrows, or a click")));
  auto* row_of_sheet = new QHBoxLayout;
  row_of_sheet->setSpacing(2 * rhythm);
  row_of_sheet->addWidget(sheet_);
  start_words_->setFont(face(TextSize::small));
  start_words_->setProperty("tone", "quiet");
  start_words_->setWordWrap(true);
  row_of_sheet->addWidget(start_words_, 1, Qt::AlignTop);
  choices()->addLayout(row_of_sheet);
  connect(sheet_, &SheetPicture::start_changed, this, &LabelsPage::changed);
}

const labels::Layout& LabelsPage::layout_in_hand() const {
  const auto& all = labels::layouts();
  return all[std::size_t(std::clamp(layouts_->currentRow(), 0, int(all.size()) - 1))];
}

bool LabelsPage::show_labels_of(const RecordRef& what) {
  using history::Entity;
  store::Connection& connection = session().connection;
  QString words;
  if (what.entity == Entity::consignment) {
    const auto held = custody::consignment(connection, ConsignmentId{what.record});
    if (!held.ok()) return false;
    number_ = to_qt(held->number);
    const auto client = lab::client(connection, held->client);
    if (client.ok()) words = in_short(to_qt(client->name));
  } else {
    SampleId sample{what.record};
    QString part;
    if (what.entity == Entity::portion) {
      const auto portion = portions::portion(connection, PortionId{what.record});
      if (!portion.ok()) return false;
      sample = portion->sample;
      part = QStringLiteral("/%1").arg(portion->number);
    } else if (what.entity != Entity::sample) {
      return false;
    }
    const auto held = custody::sample(connection, sample);
    if (!held.ok()) return false;
    number_ = to_qt(held->number) + part;
    words = in_short(to_qt(held->mark));
  }
  what_ = what;
  head()->set(tr("Labels"), number_ + QStringLiteral(" · ") + words);
  for (const auto& [kind, box] : boxes_) {
    const QSignalBlocker silent(box);
    box->setChecked(what.entity == Entity::portion
                        ? kind == LabelKind::portion || kind == LabelKind::reject
                        : kind == LabelKind::bag || (what.entity == Entity::sample && kind == LabelKind::portion));
  }
  changed();
  return true;
}

void LabelsPage::enter() {
  for (const LabelKind kind : all_kinds)
    if (!boxes_[kind]->isHidden()) return boxes_[kind]->setFocus(Qt::OtherFocusReason);
}

Result<std::vector<labels::Label>> LabelsPage::labels_of(const std::vector<LabelKind>& kinds) const {
  switch (what_.entity) {
    case history::Entity::consignment: return labels::labels_of(session().connection, ConsignmentId{what_.record}, kinds);
    case history::Entity::portion: return labels::labels_of(session().connection, PortionId{what_.record}, kinds);
    default: return labels::labels_of(session().connection, SampleId{what_.record}, kinds);
  }
}

std::vector<labels::Label> LabelsPage::chosen() const {
  std::vector<LabelKind> kinds;
  for (const auto& [kind, box] : boxes_)
    if (box->isChecked() && !box->isHidden()) kinds.push_back(kind);
  auto all = labels_of(kinds);
  return all.ok() ? *std::move(all) : std::vector<labels::Label>{};
}

void LabelsPage::count_kinds() {
  for (const auto& [kind, box] : boxes_) {
    const auto some = labels_of({kind});
    const int count = some.ok() ? int(some->size()) : 0;
    box->setVisible(count > 0);
    box->setText(tr("%1 (%2)").arg(words_of_kind(kind)).arg(count));
  }
}

void LabelsPage::changed() {
  if (what_.record == 0) return;
  count_kinds();
  const QSignalBlocker silent(sheet_);
  sheet_->set_layout(layout_in_hand());
  sheet_->set_labels(int(chosen().size()));
  show_start();
  renew();
}

void LabelsPage::show_start() {
  const int count = int(chosen().size());
  QString words = tr("Place %1 of %2.").arg(sheet_->start()).arg(layout_in_hand().count());
  words += QLatin1Char(' ') + (count == 1 ? tr("1 label") : tr("%1 labels").arg(count));
  if (const auto where = labels::spots(layout_in_hand(), std::size_t(count), sheet_->start()); where.ok() && !where->empty())
    words += where->back().sheet == 0 ? tr(" on one sheet.") : tr(" on %1 sheets.").arg(where->back().sheet + 1);
  start_words_->setText(words);
}

Result<paper::Pages> LabelsPage::pages() const { return paper::label_pages(chosen(), layout_in_hand(), sheet_->start()); }

QString LabelsPage::file_name() const {
  return tr("Labels %1").arg(QString(number_).replace(QLatin1Char('/'), QLatin1Char('-')));
}

}  // namespace prillbook::ui
