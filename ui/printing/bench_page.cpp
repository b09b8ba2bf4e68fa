// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/printing/bench_page.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QSettings>
#include <QtWidgets/QBoxLayout>
#include <QtWidgets/QCheckBox>

#include "ui/kit/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/theme.h"
#include "ui/paper/bench_sheets.h"

namespace prillbook::ui {
namespace {

constexpr const char* last_paper = "bench_sheets/paper";

}  // namespace

BenchSheetsPage::BenchSheetsPage(Session& session, Printing printing, QWidget* parent)
    : PrintPage(session, std::move(printing), parent),
      paper_(new ChoiceField(tr("Paper"), {{"a4", tr("A4")}, {"letter", tr("Letter")}})) {
  head()->set(tr("Bench sheets"), tr("blank, in the order in which the forms ask"));
  for (const paper::BenchSheet& sheet : paper::bench_sheets()) {
    auto* box = new QCheckBox(QCoreApplication::translate("BenchSheets", sheet.title));
    box->setFont(face(TextSize::body));
    box->setChecked(true);
    connect(box, &QCheckBox::toggled, this, [this] { renew(); });
    boxes_.push_back(box);
    choices()->addWidget(box);
  }
  paper_->set_required(true);
  paper_->set_value(QSettings().value(last_paper).toString() == QLatin1String("letter") ? "letter" : "a4");
  paper_->on_commit([this](const std::optional<std::string>& size) -> Result<void> {
    QSettings().setValue(last_paper, QString::fromStdString(size.value_or("a4")));
    renew();
    return {};
  });
  choices()->addSpacing(rhythm);
  choices()->addWidget(paper_);
  tab_on_from(paper_->editor());
  renew();
}

void BenchSheetsPage::enter() { boxes_.front()->setFocus(Qt::OtherFocusReason); }

Result<paper::Pages> BenchSheetsPage::pages() const {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < boxes_.size(); ++i)
    if (boxes_[i]->isChecked()) names.emplace_back(paper::bench_sheets()[i].name);
  if (names.empty()) return Error{ErrorCode::missing_key, "pages", "no sheet is chosen", {}};
  return paper::bench_pages(names, paper_->value() == "letter" ? paper::PaperSize::letter : paper::PaperSize::a4);
}

QString BenchSheetsPage::file_name() const { return tr("Bench sheets"); }

}  // namespace prillbook::ui
